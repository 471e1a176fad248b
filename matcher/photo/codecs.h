// The four decoders behind decode_photo, one file each; internal to matcher/photo.
//
// Each `peek` reads headers only. Each `decode` is called after the picture's size was judged, and returns
// 8-bit BGR as stored (HEIC: upright), alpha laid over white. Errors: bad_input when the file is damaged or
// cut short, unsupported for a flavour that is not read.
#pragma once
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <opencv2/core.hpp>
#include <span>
#include <string>
#include <vector>

namespace evet {

struct Peek {
  std::uint64_t width = 0;
  std::uint64_t height = 0;
  std::vector<std::byte> exif;  // from the byte-order mark on; empty when there is none
};

using FileBytes = std::span<const std::byte>;

Peek peek_jpeg(FileBytes file, const std::string& item);
Peek peek_png(FileBytes file, const std::string& item);
Peek peek_tiff(FileBytes file, const std::string& item);
Peek peek_heic(FileBytes file, const std::string& item);

// `eighths`: 1, 2, 4 or 8; sides become ceil(side * eighths / 8). libjpeg's scaled inverse DCT.
cv::Mat3b decode_jpeg(FileBytes file, const std::string& item, int eighths);
cv::Mat3b decode_png(FileBytes file, const std::string& item);
cv::Mat3b decode_tiff(FileBytes file, const std::string& item);
cv::Mat3b decode_heic(FileBytes file, const std::string& item);

// bad_input: "the JPEG data is damaged or cut short (detail); copy it from the camera's card again".
[[noreturn]] void refuse_damaged(const std::string& item, const std::string& format,
                                 const std::string& detail);
[[noreturn]] void refuse_flavour(const std::string& item, const std::string& what);

// One colour channel over white.
inline unsigned char over_white(unsigned colour, unsigned alpha) {
  return static_cast<unsigned char>((colour * alpha + 255 * (255 - alpha) + 127) / 255);
}
inline unsigned char premultiplied_over_white(unsigned colour, unsigned alpha) {
  return static_cast<unsigned char>(std::min(255U, colour + 255 - alpha));
}

}  // namespace evet
