#include "matcher/belly/strip_support.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <vector>

namespace evet {
namespace {

constexpr double kNarrowest = 0.06, kWidest = 0.30;  // half-widths, of the length
constexpr double kMostBend_deg = 220;
constexpr double kShortest = 0.7, kLongest = 2.6;  // length over extent: a half circle is 1.6, half cut off 2
constexpr float kCellIsBelly = 0.4f;               // of p_belly, from which a cell is belly
constexpr double kInner = 0.8;                     // of |v|: beyond it a rolled animal shows its flank
constexpr double kSameU = 0.08, kSameV = 0.35;     // map and coordinates agree within so much
constexpr int kAlong = 160, kAcross = 60;          // places of the strip that are looked up

cv::Matx33d grid_from_photo(const BodyCoordinates& k) {
  const cv::Matx23d& a = k.photo_from_grid;
  return cv::Matx33d(a(0, 0), a(0, 1), a(0, 2), a(1, 0), a(1, 1), a(1, 2), 0, 0, 1).inv();
}

struct Laid {  // the strip's places on the grid of the coordinates
  cv::Mat1b covered;
  double inner = 0, inner_on_belly = 0, on_belly = 0, agree = 0;
};

Laid lay_out(const StripMap& map, const BodyCoordinates& k, cv::Size photo) {
  Laid laid{cv::Mat1b::zeros(k.p_belly.size())};
  const cv::Matx33d to_grid = grid_from_photo(k);
  for (int i = 0; i < kAlong; ++i)
    for (int j = 0; j < kAcross; ++j) {
      const double u = (i + 0.5) / kAlong, v = (j + 0.5) / kAcross * 2 - 1;
      const cv::Point2d at = map.at(u, v);
      if (!(at.x >= 0 && at.y >= 0 && at.x < photo.width && at.y < photo.height)) continue;
      const cv::Vec3d g = to_grid * cv::Vec3d(at.x, at.y, 1);
      const int x = cvFloor(g[0]), y = cvFloor(g[1]);
      const bool there = x >= 0 && y >= 0 && x < k.p_belly.cols && y < k.p_belly.rows;
      const bool belly = there && k.p_belly(y, x) >= kCellIsBelly;
      if (std::abs(v) <= kInner) laid.inner += 1, laid.inner_on_belly += belly;
      if (!belly) continue;
      laid.covered(y, x) = 255;
      laid.on_belly += 1;
      const cv::Vec2f says = k.uv(y, x);
      laid.agree += std::abs(says[0] - u) <= kSameU && std::abs(says[1] - v) <= kSameV;
    }
  // Places lie closer than cells only where the strip is not much larger than the grid's belly.
  cv::dilate(laid.covered, laid.covered, cv::Mat::ones(3, 3, CV_8U));
  return laid;
}

// Greatest extent of the belly cells, photo pixels: along their principal axis, without the last hundredths.
double extent_of(const BodyCoordinates& k) {
  std::vector<cv::Point2d> cells;
  for (int y = 0; y < k.p_belly.rows; ++y)
    for (int x = 0; x < k.p_belly.cols; ++x)
      if (k.p_belly(y, x) >= kCellIsBelly) {
        const cv::Vec2d p = k.photo_from_grid * cv::Vec3d(x + 0.5, y + 0.5, 1);
        cells.emplace_back(p[0], p[1]);
      }
  if (cells.size() < 3) return 0;
  cv::Point2d mean;
  for (const cv::Point2d& p : cells) mean += p / static_cast<double>(cells.size());
  double xx = 0, xy = 0, yy = 0;
  for (const cv::Point2d& p : cells) {
    const cv::Point2d d = p - mean;
    xx += d.x * d.x, xy += d.x * d.y, yy += d.y * d.y;
  }
  const double angle = 0.5 * std::atan2(2 * xy, xx - yy);
  std::vector<double> along;
  for (const cv::Point2d& p : cells)
    along.push_back((p - mean).dot(cv::Point2d(std::cos(angle), std::sin(angle))));
  std::sort(along.begin(), along.end());
  const size_t cut = along.size() / 100;
  return along[along.size() - 1 - cut] - along[cut];
}

}  // namespace

bool StripSupport::possible() const {
  return narrowest >= kNarrowest && widest <= kWidest && bend_deg <= kMostBend_deg &&
         length_over_extent >= kShortest && length_over_extent <= kLongest;
}

double StripSupport::outline_match() const {
  return std::sqrt(mask_covered * strip_on_belly);
}

StripSupport support_of(const StripMap& map, const BodyCoordinates& k, cv::Size photo) {
  StripSupport out;
  const Laid laid = lay_out(map, k, photo);
  double all = 0, covered = 0;
  for (int y = 0; y < k.p_belly.rows; ++y)
    for (int x = 0; x < k.p_belly.cols; ++x) {
      if (k.p_belly(y, x) < kCellIsBelly) continue;
      all += k.p_belly(y, x);
      if (laid.covered(y, x)) covered += k.p_belly(y, x);
    }
  out.mask_covered = all > 0 ? covered / all : 0;
  out.strip_on_belly = laid.inner > 0 ? laid.inner_on_belly / laid.inner : 0;
  out.field_agrees = laid.on_belly > 0 ? laid.agree / laid.on_belly : 0;

  constexpr int kSteps = 40;
  double length = 0, last = 0;
  std::vector<double> half_widths;
  for (int i = 0; i < kSteps; ++i) {
    const double u = static_cast<double>(i) / kSteps;
    const cv::Point2d step = map.at(u + 1.0 / kSteps, 0) - map.at(u, 0);
    length += cv::norm(step);
    const double angle = std::atan2(step.y, step.x);
    if (i > 0) out.bend_deg += std::abs(std::remainder(angle - last, 2 * std::numbers::pi));
    last = angle;
    if (u >= 0.1 && u <= 0.9) half_widths.push_back(cv::norm(map.at(u, 1) - map.at(u, -1)) / 2);
  }
  out.bend_deg *= 180 / std::numbers::pi;
  if (!(length > 0)) return out;
  std::sort(half_widths.begin(), half_widths.end());
  out.narrowest = half_widths.front() / length;
  out.half_width = half_widths[half_widths.size() / 2] / length;
  out.widest = half_widths.back() / length;
  const double extent = extent_of(k);
  out.length_over_extent = extent > 0 ? length / extent : 0;
  return out;
}

}  // namespace evet
