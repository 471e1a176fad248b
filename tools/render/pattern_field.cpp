#include "tools/render/pattern_field.h"

#include <opencv2/imgproc.hpp>

#include "tools/render/blur.h"

namespace evet::render {

PatternField::PatternField(const cv::Mat1b& dark, Rng rng) {
  CV_Assert(dark.rows == kSkinRows && dark.cols == kSkinCols);
  cv::Mat1f outside, inside;
  cv::Mat1i nearest_spot;
  const cv::Mat1b ground = 255 - dark;
  distance_ = cv::Mat1f(dark.size());
  growth_per_year_ = cv::Mat1f(dark.size(), 0.0f);
  const int dark_cells = cv::countNonZero(dark);
  if (dark_cells == 0) {
    distance_ = 1.0f;
    return;
  }
  cv::distanceTransform(ground, outside, nearest_spot, cv::DIST_L2, cv::DIST_MASK_5, cv::DIST_LABEL_CCOMP);
  cv::distanceTransform(dark, inside, cv::DIST_L2, cv::DIST_MASK_5);
  for (int r = 0; r < dark.rows; ++r)
    for (int c = 0; c < dark.cols; ++c)
      distance_(r, c) = (dark(r, c) ? 0.5f - inside(r, c) : outside(r, c) - 0.5f) / kCellsPerLength;
  gaussian_blur(distance_, 0.8);

  // A spot of area A and perimeter P gains the share g of its area when its edge advances by g A / P.
  int spots = 0;
  for (int r = 0; r < dark.rows; ++r)
    for (int c = 0; c < dark.cols; ++c) spots = std::max(spots, nearest_spot(r, c) + 1);
  std::vector<float> area(static_cast<std::size_t>(spots), 0.0f), edge(area), advance(area);
  for (int r = 1; r + 1 < dark.rows; ++r)
    for (int c = 1; c + 1 < dark.cols; ++c) {
      if (!dark(r, c)) continue;
      const auto spot = static_cast<std::size_t>(nearest_spot(r, c));
      area[spot] += 1;
      const int open = !dark(r - 1, c) + !dark(r + 1, c) + !dark(r, c - 1) + !dark(r, c + 1);
      edge[spot] += 0.785f * static_cast<float>(open);  // pi/4 turns city-block into Euclidean length
    }
  const float typical = rng.uniformf(0.06, 0.12);
  for (std::size_t i = 0; i < area.size(); ++i) {
    const float share = std::clamp(typical + rng.uniformf(-0.03, 0.03), 0.055f, 0.14f);
    if (edge[i] > 0) advance[i] = share * area[i] / edge[i] / kCellsPerLength;
  }
  for (int r = 0; r < dark.rows; ++r)
    for (int c = 0; c < dark.cols; ++c)
      growth_per_year_(r, c) = advance[static_cast<std::size_t>(nearest_spot(r, c))];

  // New small spots, in free ground.
  const double per_year = rng.uniform(0, 5);
  const int wanted = static_cast<int>(per_year * 12);
  for (int i = 0; i < wanted; ++i) {
    const LaterSpot spot{rng.uniformf(60, kSkinRows - 60), rng.uniformf(45, kSkinCols - 45),
                         rng.uniformf(1.4, 3.2), rng.uniformf(0, 12), rng.uniformf(0.7, 1.4)};
    const float room = distance_(static_cast<int>(spot.row), static_cast<int>(spot.col)) * kCellsPerLength;
    if (room > spot.radius + 3) later_.push_back(spot);
  }
}

cv::Mat1f PatternField::at_years(double years) const {
  cv::Mat1f field = distance_.clone();
  const float t = static_cast<float>(std::max(0.0, years));
  for (int r = 0; r < field.rows; ++r) {
    float* d = field[r];
    const float* g = growth_per_year_[r];
    for (int c = 0; c < field.cols; ++c) d[c] -= t * g[c];
  }
  for (const LaterSpot& spot : later_) {
    if (spot.born_years >= t) continue;
    // Full size after two years, then slow growth.
    const float age = t - spot.born_years;
    const float radius = spot.radius * (std::min(1.0f, 0.4f + 0.3f * age) + 0.05f * age);
    const int reach = static_cast<int>(radius * 1.5f) + 3;
    for (int r = static_cast<int>(spot.row) - reach; r <= static_cast<int>(spot.row) + reach; ++r)
      for (int c = static_cast<int>(spot.col) - reach; c <= static_cast<int>(spot.col) + reach; ++c) {
        if (r < 0 || c < 0 || r >= field.rows || c >= field.cols) continue;
        const float dr = (static_cast<float>(r) - spot.row) * spot.stretch,
                    dc = (static_cast<float>(c) - spot.col) / spot.stretch;
        field(r, c) = std::min(field(r, c), (std::sqrt(dr * dr + dc * dc) - radius) / kCellsPerLength);
      }
  }
  return field;
}

float sample_field(const cv::Mat1f& field, float u, float v) {
  const float y =
      std::clamp((u - kSkinFirstU) * kCellsPerLength - 0.5f, 0.0f, static_cast<float>(kSkinRows) - 1.001f);
  const float x =
      std::clamp((v - kSkinFirstV) * kCellsPerV - 0.5f, 0.0f, static_cast<float>(kSkinCols) - 1.001f);
  const int r = static_cast<int>(y), c = static_cast<int>(x);
  const float fy = y - static_cast<float>(r), fx = x - static_cast<float>(c);
  const float *upper = field[r] + c, *lower = field[r + 1] + c;
  return mix(mix(upper[0], upper[1], fx), mix(lower[0], lower[1], fx), fy);
}

}  // namespace evet::render
