// What is kept of a strip for matching. A plain value, stored as it is.
#pragma once
#include <array>
#include <cstdint>
#include <opencv2/core.hpp>
#include <vector>

namespace evet {

// Spot map: probability that skin is dark rather than orange, free of lighting. Same frame as the strip, half
// its size.
inline constexpr int kMapRows = 256;
inline constexpr int kMapCols = 80;

struct SpotMap {
  cv::Mat1b dark;   // kMapRows x kMapCols, 0 = surely orange, 255 = surely dark
  cv::Mat1b valid;  // 255 where known
};

struct Spot {
  float u = 0, v = 0;    // centroid, body coordinates
  float area = 0;        // share of the whole canvas
  float elongation = 1;  // long axis over short axis of the second moments, >= 1
  float angle_rad = 0;   // of the long axis, from the u axis, (-pi/2, pi/2]
};

// Bits sampled from the band-passed spot map, and which of them are known.
struct PatternCode {
  static constexpr int kWords = 32;  // 2048 bits
  std::array<std::uint64_t, kWords> bits{};
  std::array<std::uint64_t, kWords> known{};
};

struct Pattern {
  SpotMap map;
  std::vector<Spot> spots;
  PatternCode code;
  std::vector<float> descriptor;  // unit length, for the shortlist
  double p_head_right = 1;        // when low, the search also tries the pattern turned end for end
  double p_laid_right = 1;  // that the strip lies on the belly as it should: when low, a mismatch says little
};

}  // namespace evet
