#include "matcher/search/evidence.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "matcher/pattern/masked_blur.h"
#include "matcher/search/pair_net.h"

namespace evet {
namespace {

double fisher_z(double correlation) {
  return std::atanh(std::clamp(correlation, -0.98, 0.98));
}

// Dark share averaged over the valid neighbourhood.
cv::Mat1f smoothed(const Level& level, double sigma) {
  return masked_blur(level.dark.mul(level.weight), level.weight, sigma, cv::BORDER_CONSTANT).value;
}

// Share of the heart of `dark`'s spots that lies on the heart of `ground`'s clean ground.
double contradicted(const cv::Mat1f& dark, const cv::Mat1f& ground, const cv::Mat1f& weight) {
  double spots = 0, against = 0;
  for (int r = 0; r < dark.rows; ++r)
    for (int c = 0; c < dark.cols; ++c) {
      const double spot = weight(r, c) * std::clamp((dark(r, c) - 0.6F) / 0.3F, 0.F, 1.F);
      spots += spot;
      against += spot * std::clamp((0.4F - ground(r, c)) / 0.3F, 0.F, 1.F);
    }
  const double few = 0.004 * static_cast<double>(dark.total());  // less than this tells little either way
  return against / (spots + few);
}

double block_agreement(const Level& a, const Level& b) {
  constexpr int kAlong = 8, kAcross = 2;
  const int rows = a.dark.rows / kAlong, cols = a.dark.cols / kAcross;
  double sum = 0, total = 0;
  for (int i = 0; i < kAlong; ++i)
    for (int j = 0; j < kAcross; ++j) {
      const cv::Rect box(j * cols, i * rows, cols, rows);
      const Level in_a{a.dark(box), a.weight(box)}, in_b{b.dark(box), b.weight(box)};
      const double shared = in_a.weight.dot(in_b.weight) / (rows * cols);
      if (shared <= 0.2) continue;
      sum += shared * fisher_z(masked_correlation(in_a, in_b)), total += shared;
    }
  return total > 0 ? sum / total : 0;
}

// Independent details of a map's known part, per pixel, up to a factor: mean squared slope over variance.
// Large blotches hold few, and two of them lie on each other by luck far more easily than
// many small spots do.
double detail(const Level& level, const cv::Mat1f& weight) {
  double n = 0, sum = 0, squares = 0, slopes = 0;
  for (int r = 0; r + 1 < level.dark.rows; ++r)
    for (int c = 0; c + 1 < level.dark.cols; ++c) {
      const double w = weight(r, c), x = level.dark(r, c), a = level.dark(r + 1, c) - x,
                   b = level.dark(r, c + 1) - x;
      const double inside = weight(r + 1, c) > 0 && weight(r, c + 1) > 0 ? w : 0;
      n += w, sum += w * x, squares += w * x * x, slopes += inside * (a * a + b * b);
    }
  if (n <= 0) return 0;
  const double variance = squares / n - sum / n * (sum / n);
  return variance > 1e-6 ? slopes / n / variance : 0;
}

double judged_in_order(const Level& fixed, const Level& drawn, Order order) {
  switch (order) {
    case Order::fixed_first:
      return judged(fixed, drawn);
    case Order::moving_first:
      return judged(drawn, fixed);
    case Order::unknown:
      break;
  }
  return (judged(fixed, drawn) + judged(drawn, fixed)) / 2;
}

}  // namespace

Measures measure(const AlignmentMaps& fixed, const AlignmentMaps& moving, const Alignment& alignment,
                 double code_distance, double cosine_similarity, Order order) {
  const Level drawn = drawn_onto(moving.fine, alignment);
  const cv::Mat1f weight = drawn.weight.mul(fixed.fine.weight);
  const cv::Mat1f near_fixed = smoothed(fixed.fine, 1.2), near_moving = smoothed(drawn, 1.2);
  const cv::Mat1f broad_fixed = smoothed(fixed.fine, 4), broad_moving = smoothed(drawn, 4);

  double lost = contradicted(near_fixed, near_moving, weight),
         gained = contradicted(near_moving, near_fixed, weight);
  if (order == Order::moving_first) std::swap(lost, gained);
  if (order == Order::unknown) lost = gained = (lost + gained) / 2;

  cv::Vec2f mean(0, 0);
  for (const cv::Vec2f& f : alignment.flow) mean += f * (1.F / static_cast<float>(alignment.flow.size()));
  return {fisher_z(alignment.correlation),
          fisher_z(masked_correlation({near_fixed - broad_fixed, fixed.fine.weight},
                                      {near_moving - broad_moving, drawn.weight})),
          block_agreement(fixed.fine, drawn),
          fisher_z(alignment.correlation) *
              std::sqrt(alignment.overlap * std::sqrt(detail(fixed.fine, weight) * detail(drawn, weight))),
          lost,
          gained,
          std::sqrt(strain(alignment.flow, shipped_strip_errors())),
          10 * std::hypot(mean[0] / kHalfWidth, mean[1]),
          code_distance,
          alignment.overlap,
          cosine_similarity,
          judged_in_order(fixed.fine, drawn, order)};
}

std::vector<SpotPair> spot_pairs(const std::vector<Spot>& fixed, const std::vector<Spot>& moving,
                                 const Alignment& alignment) {
  std::vector<SpotPair> pairs;
  std::vector<bool> taken(moving.size(), false);
  for (size_t i = 0; i < fixed.size(); ++i) {
    const Spot& spot = fixed[i];
    const cv::Point2d to = alignment.at(spot.u, spot.v);
    double nearest = 1e9;
    size_t best = moving.size();
    for (size_t k = 0; k < moving.size(); ++k) {
      const double ratio = spot.area / moving[k].area;
      if (taken[k] || ratio > 3 || ratio < 1.0 / 3) continue;
      // In canvas lengths; a canvas is 256 x 80 cells.
      const double along = to.x - moving[k].u, across = (to.y - moving[k].v) / 2 * kMapCols / kMapRows;
      const double radius =
          std::sqrt(std::max(spot.area, moving[k].area) * kMapCols / kMapRows / std::numbers::pi);
      const double distance = std::hypot(along, across);
      if (distance < std::max(radius, 0.02) && distance < nearest) nearest = distance, best = k;
    }
    if (best < moving.size()) taken[best] = true, pairs.push_back({i, best});
  }
  return pairs;
}

int matched_spots(const std::vector<Spot>& fixed, const std::vector<Spot>& moving,
                  const Alignment& alignment) {
  return static_cast<int>(spot_pairs(fixed, moving, alignment).size());
}

}  // namespace evet
