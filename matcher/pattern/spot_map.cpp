#include "matcher/pattern/spot_map.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/pattern/ground_and_spot.h"

namespace evet {
namespace {

// sRGB (IEC 61966-2-1) to linear light.
const std::array<float, 256>& linear_light() {
  static const std::array<float, 256> table = [] {
    std::array<float, 256> t{};
    for (int i = 0; i < 256; ++i) {
      const double s = i / 255.0;
      t[i] = static_cast<float>(s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4));
    }
    return t;
  }();
  return table;
}

// Averages the valid strip pixels under each map pixel in linear light.
LogColours log_colours(const Strip& strip, double min_valid_share) {
  const auto& light = linear_light();
  constexpr int kStep = kStripRows / kMapRows;
  constexpr float kDarkest = 0.004F;  // keeps sensor noise in deep shade from swinging the logarithm
  LogColours out{cv::Mat2f(kMapRows, kMapCols, cv::Vec2f(0, 0)), cv::Mat1b(kMapRows, kMapCols, uchar{0})};
  for (int row = 0; row < kMapRows; ++row)
    for (int col = 0; col < kMapCols; ++col) {
      float sum[3] = {0, 0, 0};
      int known = 0;
      for (int i = 0; i < kStep * kStep; ++i) {
        const int r = row * kStep + i / kStep, c = col * kStep + i % kStep;
        if (!strip.valid(r, c)) continue;
        for (int k = 0; k < 3; ++k) sum[k] += light[strip.bgr(r, c)[k]];
        ++known;
      }
      if (known < min_valid_share * kStep * kStep) continue;
      const float n = static_cast<float>(known);
      const float b = std::log(sum[0] / n + kDarkest), g = std::log(sum[1] / n + kDarkest),
                  r = std::log(sum[2] / n + kDarkest);
      // Brightness where orange and black differ most, and the hue that lighting strength cannot move.
      out.colour(row, col) = {0.6F * r + 0.4F * g, r - 0.5F * (g + b)};
      out.valid(row, col) = 255;
    }
  return out;
}

}  // namespace

void SpotMapOptions::check() const {
  if (iterations < 1) throw Error(ErrorKind::usage, "spot map", "iterations must be at least 1");
  if (min_contrast <= 0) throw Error(ErrorKind::usage, "spot map", "min_contrast must be above 0");
  if (min_valid_share <= 0 || min_valid_share > 1)
    throw Error(ErrorKind::usage, "spot map", "min_valid_share must lie in (0, 1]");
}

SpotMap make_spot_map(const Strip& strip, const SpotMapOptions& options) {
  options.check();
  const cv::Size canvas(kStripCols, kStripRows);
  if (strip.bgr.size() != canvas || strip.valid.size() != canvas)
    throw Error(ErrorKind::bad_input, "strip", "it is not of the size that all strips have",
                "give 512 rows and 160 columns with a mask of the same size");
  const LogColours colours = log_colours(strip, options.min_valid_share);
  return {darkness(colours, options), colours.valid};
}

SpotMap turned(const SpotMap& map) {
  SpotMap out;
  cv::flip(map.dark, out.dark, -1);
  cv::flip(map.valid, out.valid, -1);
  return out;
}

}  // namespace evet
