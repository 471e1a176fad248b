// PNG through libpng's simplified interface (ISO/IEC 15948): palettes, 1 to 16 bits, transparency,
// interlacing and the file's own gamma all become 8-bit sRGB. libpng refuses any chunk that unpacks to more
// than 8 MB.
#include <png.h>

#include <cstring>
#include <utility>

#include "matcher/photo/codecs.h"

namespace evet {
namespace {

struct PngReader {
  png_image image{};
  PngReader() { image.version = PNG_IMAGE_VERSION; }
  PngReader(const PngReader&) = delete;
  PngReader& operator=(const PngReader&) = delete;
  ~PngReader() { png_image_free(&image); }
};

void open(PngReader& r, FileBytes file, const std::string& item) {
  if (png_image_begin_read_from_memory(&r.image, file.data(), file.size()) == 0)
    refuse_damaged(item, "PNG", r.image.message);
  // Without this libpng takes 16-bit samples to be linear light, which no camera or editor writes.
  r.image.flags |= PNG_IMAGE_FLAG_16BIT_sRGB;
}

std::uint32_t big_endian(FileBytes bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) value = value << 8 | std::to_integer<std::uint32_t>(bytes[at + i]);
  return value;
}

// Length, four letters, data, check sum; the simplified interface does not hand chunks out. libpng sets
// memory aside for whatever length a chunk claims, so that one that runs past the end of the
// file is refused here.
std::vector<std::byte> exif_chunk(FileBytes file, const std::string& item) {
  std::vector<std::byte> exif;
  for (std::size_t at = 8; at + 12 <= file.size();) {
    const std::size_t length = big_endian(file, at);
    if (length > file.size() - at - 12) refuse_damaged(item, "PNG", "a chunk runs past the end of the file");
    const FileBytes data = file.subspan(at + 8, length);
    if (std::memcmp(file.data() + at + 4, "IEND", 4) == 0) break;
    if (std::memcmp(file.data() + at + 4, "eXIf", 4) == 0) exif.assign(data.begin(), data.end());
    at += 12 + length;
  }
  return exif;
}

}  // namespace

Peek peek_png(FileBytes file, const std::string& item) {
  std::vector<std::byte> exif = exif_chunk(file, item);
  PngReader r;
  open(r, file, item);
  return {r.image.width, r.image.height, std::move(exif)};
}

cv::Mat3b decode_png(FileBytes file, const std::string& item) {
  PngReader r;
  open(r, file, item);
  r.image.format = PNG_FORMAT_BGR;
  cv::Mat3b bgr(static_cast<int>(r.image.height), static_cast<int>(r.image.width));
  const png_color white{255, 255, 255};
  if (png_image_finish_read(&r.image, &white, bgr.data, static_cast<png_int_32>(bgr.step), nullptr) == 0)
    refuse_damaged(item, "PNG", r.image.message);
  return bgr;
}

}  // namespace evet
