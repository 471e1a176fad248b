#include <exiv2/exiv2.hpp>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "tools/render/jpeg.h"
#include "tools/render/scene.h"

namespace evet::render {

namespace {

// The picture as stored, so that a reader that applies `orientation` (Exif 2.32, tag 0x0112) sees it upright.
cv::Mat3b as_stored(const cv::Mat3b& upright, int orientation) {
  cv::Mat3b stored;
  switch (orientation) {
    case 1:
      return upright;
    case 2:
      cv::flip(upright, stored, 1);
      return stored;
    case 3:
      cv::rotate(upright, stored, cv::ROTATE_180);
      return stored;
    case 4:
      cv::flip(upright, stored, 0);
      return stored;
    case 5:
      cv::transpose(upright, stored);
      return stored;
    case 6:
      cv::rotate(upright, stored, cv::ROTATE_90_COUNTERCLOCKWISE);
      return stored;
    case 7:
      cv::transpose(upright, stored);
      cv::rotate(stored, stored, cv::ROTATE_180);
      return stored;
    case 8:
      cv::rotate(upright, stored, cv::ROTATE_90_CLOCKWISE);
      return stored;
    default:
      throw std::invalid_argument("Exif orientation is 1 to 8, not " + std::to_string(orientation));
  }
}

}  // namespace

std::vector<unsigned char> to_camera_jpeg(const cv::Mat3b& upright, int quality, int orientation,
                                          const std::string& taken_at) {
  const std::vector<unsigned char> plain = encode_jpeg(as_stored(upright, orientation), quality);
  // Exif writes the date with colons: "2031:05:14 22:41:07".
  std::string time = taken_at;
  if (time.size() < 19)
    throw std::invalid_argument("a time is like 2031-05-14T22:41:07, not '" + taken_at + "'");
  time[4] = time[7] = ':';
  time[10] = ' ';
  Exiv2::ExifData exif;
  exif["Exif.Image.Orientation"] = static_cast<std::uint16_t>(orientation);
  exif["Exif.Image.Make"] = "Invented";
  exif["Exif.Image.Model"] = "Pondside 2";
  exif["Exif.Image.DateTime"] = time.substr(0, 19);
  exif["Exif.Photo.DateTimeOriginal"] = time.substr(0, 19);
  const auto image = Exiv2::ImageFactory::open(plain.data(), static_cast<long>(plain.size()));
  image->setExifData(exif);
  image->writeMetadata();
  Exiv2::BasicIo& io = image->io();
  std::vector<unsigned char> bytes(io.size());
  io.seek(0, Exiv2::BasicIo::beg);
  io.read(bytes.data(), static_cast<long>(bytes.size()));
  return bytes;
}

}  // namespace evet::render
