#include "matcher/belly/strip_map.h"

#include <algorithm>
#include <cmath>

namespace evet {

StripMap::Local StripMap::local(double u) {
  const double s = (std::clamp(u, kUMin, kUMax) - kUMin) * kSegments / (kUMax - kUMin);
  Local out;
  out.first = std::min(static_cast<int>(s), kSegments - 1);
  const double t = s - out.first, r = 1 - t;
  const double per_u = kSegments / (kUMax - kUMin);
  out.value = {r * r * r / 6, (3 * t * t * t - 6 * t * t + 4) / 6, (3 * r * r * r - 6 * r * r + 4) / 6,
               t * t * t / 6};
  out.slope = {-r * r / 2 * per_u, (3 * t * t - 4 * t) / 2 * per_u, -(3 * r * r - 4 * r) / 2 * per_u,
               t * t / 2 * per_u};
  return out;
}

cv::Point2d StripMap::at(double u, double v) const {
  const Local b = local(u);
  const double beyond = u - std::clamp(u, kUMin, kUMax);
  cv::Vec2d sum(0, 0);
  for (int i = 0; i < 4; ++i) {
    const auto& row = c[b.first + i];
    const cv::Vec2d across = row[0] + v * (row[1] + v * (row[2] + v * row[3]));
    sum += (b.value[i] + beyond * b.slope[i]) * across;
  }
  return {sum[0], sum[1]};
}

cv::Matx22d StripMap::jacobian(double u, double v) const {
  const Local b = local(u);
  cv::Vec2d du(0, 0), dv(0, 0);
  for (int i = 0; i < 4; ++i) {
    const auto& row = c[b.first + i];
    du += b.slope[i] * (row[0] + v * (row[1] + v * (row[2] + v * row[3])));
    dv += b.value[i] * (row[1] + v * (2 * row[2] + v * 3 * row[3]));
  }
  return {du[0], dv[0], du[1], dv[1]};
}

}  // namespace evet
