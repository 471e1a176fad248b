// A decoded photograph: the first value of the corridor.
#pragma once
#include <opencv2/core.hpp>
#include <optional>
#include <string>

namespace evet {

inline constexpr int kLongestSide = 65'535;  // pixels; also JPEG's own limit: no camera comes near

enum class PhotoFormat { jpeg, png, tiff, heic };

// What the file says of itself, read without decoding the pixels.
struct PhotoHeader {
  PhotoFormat format = PhotoFormat::jpeg;
  int width_px = 0;     // as stored, before orientation
  int height_px = 0;    // as stored, before orientation
  int orientation = 1;  // Exif 1..8; 1 when absent. HEIC: 1, its own rotation is applied by the decoder
  std::optional<std::string>
      taken_at;  // "2031-05-14T22:41:07", local clock of the camera (Exif DateTimeOriginal)
  std::optional<std::string> taken_at_offset;  // "+02:00" when the camera wrote one; never assumed
  bool has_position = false;  // the file carries GPS coordinates: they must not leave the house
  std::string camera;         // make and model, for the ledger; may be empty
};

// Pixels, upright: Exif orientation has been applied once and for all.
// Frame: x right, y down, origin at the outer corner of the top-left pixel; pixel (i, j) covers [i, i+1) x
// [j, j+1).
struct Photo {
  cv::Mat3b bgr;  // 8-bit sRGB
  double full_per_px =
      1;  // pixels of the full-size upright picture per pixel of `bgr` (>= 1 when decoded reduced)
  PhotoHeader header;
};

}  // namespace evet
