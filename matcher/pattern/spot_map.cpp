#include "matcher/pattern/spot_map.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/pattern/ground_and_spot.h"
#include "matcher/pattern/strip_net.h"

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

void check_size(const Strip& strip) {
  const cv::Size canvas(kStripCols, kStripRows);
  if (strip.bgr.size() != canvas || strip.valid.size() != canvas)
    throw Error(ErrorKind::bad_input, "strip", "it is not of the size that all strips have",
                "give 512 rows and 160 columns with a mask of the same size");
}

// The strip on the map's frame as the network wants it.
std::vector<cv::Mat1f> network_input(const Strip& strip) {
  cv::Mat3b bgr = strip.bgr.clone();
  cv::Mat1b beyond;  // the picture's edge: black without any noise
  cv::inRange(bgr, cv::Scalar::all(0), cv::Scalar::all(0), beyond);
  bgr.setTo(cv::Scalar::all(128), beyond);
  cv::Mat3f exact, small;
  bgr.convertTo(exact, CV_32F, 1 / 255.0);
  cv::resize(exact, small, {kMapCols, kMapRows}, 0, 0, cv::INTER_AREA);
  std::vector<cv::Mat1f> planes(3);
  for (int k = 0; k < 3; ++k) cv::extractChannel(small, planes[k], 2 - k);
  return planes;
}

}  // namespace

void SpotMapOptions::check() const {
  if (min_p_seen < 0 || min_p_seen > 1)
    throw Error(ErrorKind::usage, "spot map", "min_p_seen must lie in [0, 1]");
  if (iterations < 1) throw Error(ErrorKind::usage, "spot map", "iterations must be at least 1");
  if (min_contrast <= 0) throw Error(ErrorKind::usage, "spot map", "min_contrast must be above 0");
  if (min_valid_share <= 0 || min_valid_share > 1)
    throw Error(ErrorKind::usage, "spot map", "min_valid_share must lie in (0, 1]");
}

SpotMap make_spot_map(const Strip& strip, const SpotMapOptions& options) {
  options.check();
  check_size(strip);
  cv::Mat1b share;
  cv::resize(strip.valid, share, {kMapCols, kMapRows}, 0, 0, cv::INTER_AREA);
  const std::vector<float> logits = StripNet::spots().forward(network_input(strip));
  constexpr size_t kCells = static_cast<size_t>(kMapRows) * kMapCols;
  if (logits.size() != 2 * kCells)
    throw Error(ErrorKind::unsupported, "spot network", "answers in another shape", "use 1 x 2 x 256 x 80");
  const auto probability = [&](size_t at) { return 1 / (1 + std::exp(-static_cast<double>(logits[at]))); };
  SpotMap map{cv::Mat1b(kMapRows, kMapCols, uchar{0}), cv::Mat1b(kMapRows, kMapCols, uchar{0})};
  for (size_t i = 0; i < kCells; ++i) {
    if (share.data[i] < 255 * options.min_valid_share || probability(kCells + i) < options.min_p_seen)
      continue;
    map.valid.data[i] = 255;
    map.dark.data[i] = static_cast<uchar>(std::lround(255 * probability(i)));
  }
  return map;
}

SpotMap make_spot_map_by_mixture(const Strip& strip, const SpotMapOptions& options) {
  options.check();
  check_size(strip);
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
