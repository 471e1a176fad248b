// What the camera wrote beside the pixels.
#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <string>

namespace evet {

struct ExifFacts {
  int orientation = 1;                         // 1..8
  std::optional<std::string> taken_at;         // "2031-05-14T22:41:07"
  std::optional<std::string> taken_at_offset;  // "+02:00"
  bool has_position = false;                   // latitude or longitude in the GPS directory
  std::string camera;                          // make and model, printable, at most 100 bytes
};

// `block`: an Exif block from its byte-order mark on ("II*\0..." or "MM\0*..."), which is also what a TIFF
// file is. Never an error: what is broken, absent or impossible (month 13, orientation 9) is left out,
// because a damaged note is no reason to refuse pixels. Tags after Exif 3.0 (CIPA DC-008-2023).
ExifFacts read_exif(std::span<const std::byte> block);

}  // namespace evet
