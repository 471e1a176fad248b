#include "matcher/pattern/spot_list.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <tuple>

namespace evet {
namespace {
struct Moments {
  double n = 0, r = 0, c = 0, rr = 0, rc = 0, cc = 0;
};
}  // namespace

std::vector<Spot> list_spots(const SpotMap& map, double min_area) {
  const cv::Mat1b spot_pixels = (map.dark >= 128) & (map.valid > 0);
  cv::Mat1i labels;
  const int count = cv::connectedComponents(spot_pixels, labels, 8, CV_32S);
  std::vector<Moments> sums(static_cast<size_t>(count));
  for (int row = 0; row < labels.rows; ++row)
    for (int col = 0; col < labels.cols; ++col)
      if (const int label = labels(row, col)) {
        Moments& m = sums[static_cast<size_t>(label)];
        const double r = row + 0.5, c = col + 0.5;
        m.n += 1, m.r += r, m.c += c, m.rr += r * r, m.rc += r * c, m.cc += c * c;
      }
  std::vector<Spot> spots;
  const double canvas = static_cast<double>(map.dark.rows) * map.dark.cols;
  for (const Moments& m : sums) {
    if (m.n == 0 || m.n / canvas < min_area) continue;
    const double r = m.r / m.n, c = m.c / m.n;
    // One twelfth is the variance of a pixel's own width: a single pixel is round, not infinitely thin.
    const double vr = m.rr / m.n - r * r + 1.0 / 12, vc = m.cc / m.n - c * c + 1.0 / 12,
                 cov = m.rc / m.n - r * c;
    const double half = (vr + vc) / 2, spread = std::hypot((vr - vc) / 2, cov);
    Spot spot;
    spot.u = static_cast<float>(r / map.dark.rows);
    spot.v = static_cast<float>(c / map.dark.cols * 2 - 1);
    spot.area = static_cast<float>(m.n / canvas);
    spot.elongation = static_cast<float>(std::sqrt((half + spread) / std::max(half - spread, 1.0 / 12)));
    spot.angle_rad = static_cast<float>(0.5 * std::atan2(2 * cov, vr - vc));
    spots.push_back(spot);
  }
  std::sort(spots.begin(), spots.end(),
            [](const Spot& a, const Spot& b) { return std::tie(a.u, a.v) < std::tie(b.u, b.v); });
  return spots;
}

}  // namespace evet
