#include "matcher/search/join_patterns.h"

#include <algorithm>
#include <numeric>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/pattern/spot_map.h"
#include "matcher/search/messages.h"

namespace evet {
namespace {

// Darkness and weight of a map read where the alignment says that the frame's pixels lie on it.
struct Drawn {
  cv::Mat1f dark, weight;
};

Drawn drawn_onto_frame(const SpotMap& map, const Alignment& alignment) {
  cv::Mat2f at(kMapRows, kMapCols);
  for (int row = 0; row < kMapRows; ++row)
    for (int col = 0; col < kMapCols; ++col) {
      const cv::Point2d p = alignment.at((row + 0.5) / kMapRows, (col + 0.5) / kMapCols * 2 - 1);
      at(row, col) = {static_cast<float>((p.y + 1) / 2 * kMapCols - 0.5),
                      static_cast<float>(p.x * kMapRows - 0.5)};
    }
  cv::Mat1f known, sum;
  map.valid.convertTo(known, CV_32F, 1 / 255.0);
  map.dark.convertTo(sum, CV_32F);
  sum = sum.mul(known);
  Drawn out;
  cv::remap(known, out.weight, at, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_CONSTANT);
  cv::remap(sum, out.dark, at, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_CONSTANT);
  return out;
}

}  // namespace

void JoinOptions::check() const {
  compare.check();
  pattern.check();
  if (min_correlation < -1 || min_correlation > 1)
    throw Error(ErrorKind::usage, "min_correlation", messages::kIsNotBetween1And1);
}

JoinedPattern join_patterns(const std::vector<Pattern>& photos, const JoinOptions& options) {
  options.check();
  if (photos.empty())
    throw Error(ErrorKind::usage, "joined pattern", messages::kIsAskedForOfNo,
                messages::kGiveOnePatternOrMore);
  std::vector<std::size_t> order(photos.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return cv::countNonZero(photos[a].map.valid) > cv::countNonZero(photos[b].map.valid);
  });
  const Pattern& frame = photos[order[0]];
  JoinedPattern out{frame, {order[0]}};
  Drawn sum = drawn_onto_frame(frame.map, {});
  for (std::size_t i = 1; i < order.size(); ++i) {
    const auto [other, hits] = prepare_for(photos[order[i]], frame, options.compare);
    if (hits.empty() || hits.front().placed < 0) continue;
    const Comparison fit = compare(other, frame, hits, Order::unknown, options.compare);
    if (fit.alignment.correlation < options.min_correlation) continue;
    const SpotMap& map = photos[order[i]].map;
    const Drawn more = drawn_onto_frame(fit.turned ? turned(map) : map, fit.alignment);
    sum.dark += more.dark;
    sum.weight += more.weight;
    out.used.push_back(order[i]);
  }
  if (out.used.size() == 1) return out;
  SpotMap joined{cv::Mat1b(kMapRows, kMapCols, uchar{0}), sum.weight >= 0.5F};
  for (int row = 0; row < kMapRows; ++row)
    for (int col = 0; col < kMapCols; ++col)
      if (joined.valid(row, col))
        joined.dark(row, col) = cv::saturate_cast<uchar>(sum.dark(row, col) / sum.weight(row, col));
  out.pattern = pattern_of(std::move(joined), frame.p_head_right, options.pattern);
  out.pattern.p_laid_right = frame.p_laid_right;
  return out;
}

}  // namespace evet
