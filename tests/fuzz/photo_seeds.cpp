// Writes small valid files of every format and flavour: a start for the photo fuzz programs.
// Usage: photo_seeds FOLDER  (files go to FOLDER/decode_photo and FOLDER/exif)
#include <filesystem>
#include <fstream>
#include <iostream>

#include "tests/matcher/photo/sample_files.h"

int main(int argc, char** argv) {
  using namespace evet::samples;
  if (argc != 2) {
    std::cerr << "usage: photo_seeds FOLDER\n";
    return 2;
  }
  const std::filesystem::path folder = argv[1];
  const auto write = [&](const std::filesystem::path& name, const Bytes& bytes) {
    std::filesystem::create_directories((folder / name).parent_path());
    std::ofstream(folder / name, std::ios::binary)
        .write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  };
  const cv::Mat3b picture = quarters(40, 24);
  ExifSpec with_position;
  with_position.position = true;
  with_position.orientation = 6;
  const Bytes exif = exif_block(with_position);
  write("exif/full", exif);
  write("exif/plain", exif_block({}));
  write("decode_photo/plain.jpg", jpeg(picture, {.exif = exif}));
  write("decode_photo/progressive.jpg", jpeg(picture, {.progressive = true}));
  write("decode_photo/grey.jpg", jpeg(picture, {.inks = Inks::grey}));
  write("decode_photo/cmyk.jpg", jpeg(picture, {.inks = Inks::cmyk}));
  write("decode_photo/ycck.jpg", jpeg(picture, {.inks = Inks::ycck}));
  write("decode_photo/large.jpg", jpeg(quarters(300, 200)));
  write("decode_photo/plain.png", png(picture, {.exif = exif}));
  write("decode_photo/sixteen.png", png(picture, {.bits = 16, .alpha = true}));
  write("decode_photo/interlaced.png", png(picture, {.interlaced = true}));
  write("decode_photo/palette.png", png(picture, {.palette = true}));
  for (const std::uint16_t compression : {1, 5, 7, 8, 32773})
    write("decode_photo/" + std::to_string(compression) + ".tif",
          tiff(picture, {.compression = compression}));
  write("decode_photo/tiled.tif", tiff(picture, {.bits = 16, .alpha = true, .tiled = true}));
  write("decode_photo/turned.tif", tiff(picture, {.orientation = 7}));
  write("decode_photo/plain.heic", heic(picture, 6, exif));
}
