// Small picture files made on the spot, for tests and as a start for the fuzz programs. Written with the
// encoders of the format libraries and with Exif blocks put together byte by byte, so that nothing under test
// writes its own input.
#pragma once
#include <cstddef>
#include <cstdint>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

namespace evet::samples {

using Bytes = std::vector<std::byte>;

// Four quarters of different colour and a black bar along the top: tells all eight orientations apart.
cv::Mat3b quarters(int width, int height);
// As it would be stored so that `orientation` makes it upright again; by index arithmetic, not by flips.
cv::Mat3b stored_as(const cv::Mat3b& upright, int orientation);

struct ExifSpec {
  int orientation = 1;
  std::string taken_at = "2031:05:14 22:41:07";
  std::string offset = "+02:00";
  std::string make = "Tarn", model = "Tarn T2";
  bool position = false;
};
Bytes exif_block(const ExifSpec& spec);  // from the byte-order mark on

enum class Inks { bgr, grey, cmyk, ycck };
struct JpegSpec {
  int quality = 92;
  bool progressive = false;
  Inks inks = Inks::bgr;
  Bytes exif = {};
};
Bytes jpeg(const cv::Mat3b& bgr, const JpegSpec& spec = {});

struct PngSpec {
  int bits = 8;
  bool alpha = false;  // left half transparent
  bool interlaced = false;
  bool palette = false;
  Bytes exif = {};
};
Bytes png(const cv::Mat3b& bgr, const PngSpec& spec = {});
// A valid PNG signature and header for a picture of this size, and no pixels.
Bytes png_header(std::uint32_t width, std::uint32_t height);

struct TiffSpec {
  int bits = 8;
  bool alpha = false;
  int orientation = 1;
  std::uint16_t compression = 5;  // LZW
  bool tiled = false;
};
Bytes tiff(const cv::Mat3b& bgr, const TiffSpec& spec = {});
Bytes tiff_header(std::uint32_t width, std::uint32_t height);

Bytes heic(const cv::Mat3b& bgr, int orientation = 1, const Bytes& exif = {});

Bytes bytes_of(const std::string& text);

}  // namespace evet::samples
