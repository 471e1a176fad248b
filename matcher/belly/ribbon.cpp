#include "matcher/belly/ribbon.h"

#include <algorithm>
#include <cmath>

namespace evet {
namespace {

// Second derivatives of the natural cubic spline through (t, y): the usual tridiagonal sweep.
std::vector<double> spline_bend(const std::vector<double>& t, const std::vector<double>& y) {
  const size_t n = t.size();
  std::vector<double> bend(n, 0.0), work(n, 0.0);
  for (size_t i = 1; i + 1 < n; ++i) {
    const double share = (t[i] - t[i - 1]) / (t[i + 1] - t[i - 1]);
    const double pivot = share * bend[i - 1] + 2;
    bend[i] = (share - 1) / pivot;
    const double turn = (y[i + 1] - y[i]) / (t[i + 1] - t[i]) - (y[i] - y[i - 1]) / (t[i] - t[i - 1]);
    work[i] = (6 * turn / (t[i + 1] - t[i - 1]) - share * work[i - 1]) / pivot;
  }
  for (size_t i = n - 1; i-- > 1;) bend[i] = bend[i] * bend[i + 1] + work[i];
  bend.front() = bend.back() = 0;
  return bend;
}

double spline_at(const std::vector<double>& t, const std::vector<double>& y, const std::vector<double>& bend,
                 double x) {
  const size_t hi = std::clamp<size_t>(std::upper_bound(t.begin(), t.end(), x) - t.begin(), 1, t.size() - 1);
  const double h = t[hi] - t[hi - 1], a = (t[hi] - x) / h, b = (x - t[hi - 1]) / h;
  return a * y[hi - 1] + b * y[hi] +
         ((a * a * a - a) * bend[hi - 1] + (b * b * b - b) * bend[hi]) * h * h / 6;
}

}  // namespace

double curve_length(const std::vector<cv::Point2d>& curve) {
  double sum = 0;
  for (size_t i = 1; i < curve.size(); ++i)
    sum += std::hypot(curve[i].x - curve[i - 1].x, curve[i].y - curve[i - 1].y);
  return sum;
}

std::vector<cv::Point2d> smooth_curve(const std::vector<cv::Point2d>& through, int points) {
  std::vector<double> t, x, y;
  for (const cv::Point2d& p : through) {
    const double step = t.empty() ? 0 : std::hypot(p.x - x.back(), p.y - y.back());
    if (!t.empty() && step < 1e-9) continue;
    t.push_back(t.empty() ? 0 : t.back() + step);
    x.push_back(p.x), y.push_back(p.y);
  }
  if (t.size() < 2) return {};
  const auto bx = spline_bend(t, x), by = spline_bend(t, y);
  // Fine first, then even steps along the fine curve.
  std::vector<cv::Point2d> fine;
  const int fine_points = points * 8;
  for (int i = 0; i <= fine_points; ++i) {
    const double s = t.back() * i / fine_points;
    fine.emplace_back(spline_at(t, x, bx, s), spline_at(t, y, by, s));
  }
  const double step = curve_length(fine) / (points - 1);
  std::vector<cv::Point2d> out{fine.front()};
  double gone = 0;
  for (size_t i = 1; i < fine.size(); ++i) {
    const cv::Point2d d = fine[i] - fine[i - 1];
    const double length = std::hypot(d.x, d.y);
    while (static_cast<int>(out.size()) < points - 1 &&
           gone + length >= step * static_cast<double>(out.size()))
      out.push_back(fine[i - 1] + d * ((step * static_cast<double>(out.size()) - gone) / length));
    gone += length;
  }
  out.push_back(fine.back());
  return out;
}

std::vector<cv::Point2d> left_normals(const std::vector<cv::Point2d>& curve) {
  std::vector<cv::Point2d> out(curve.size());
  for (size_t i = 0; i < curve.size(); ++i) {
    const cv::Point2d d = curve[std::min(i + 1, curve.size() - 1)] - curve[i > 0 ? i - 1 : 0];
    const double length = std::max(std::hypot(d.x, d.y), 1e-12);
    out[i] = {-d.y / length, d.x / length};  // travel down the picture (0, 1): left is (-1, 0)
  }
  return out;
}

RibbonPlace place_on(const Ribbon& ribbon, const cv::Point2d& p) {
  const auto& mid = ribbon.midline;
  double nearest = 1e300, along = 0, side = 0, share = 0;
  size_t at = 0;
  for (size_t i = 0; i + 1 < mid.size(); ++i) {
    const cv::Point2d d = mid[i + 1] - mid[i], r = p - mid[i];
    const double len2 = d.dot(d);
    const double t = len2 > 0 ? r.dot(d) / len2 : 0;
    const double s = std::clamp(t, i == 0 ? -1e9 : 0.0, i + 2 == mid.size() ? 1e9 : 1.0);
    const cv::Point2d off = r - d * s;
    const double distance = off.dot(off);
    if (distance >= nearest) continue;
    nearest = distance, at = i, share = std::clamp(s, 0.0, 1.0);
    along = (static_cast<double>(i) + s) / static_cast<double>(mid.size() - 1);
    side = d.x * off.y - d.y * off.x;  // > 0: to the left, head up
  }
  const auto& half = side > 0 ? ribbon.left : ribbon.right;
  const double w = half[at] * (1 - share) + half[at + 1] * share;
  return {along, std::sqrt(nearest) / std::max(w, 1e-9), side > 0};
}

double v_of(const RibbonPlace& place) {
  const double inside = std::asin(std::min(place.across, 1.0) * std::sin(kBarrelAngle)) / kBarrelAngle;
  const double v = inside + std::max(place.across - 1, 0.0);
  return place.left ? -v : v;
}

BodyCoordinates coordinates_of(const Ribbon& ribbon, cv::Size photo) {
  const auto& mid = ribbon.midline;
  const double cell = std::max(curve_length(mid) / 80, 1e-3);
  double x0 = mid[0].x, x1 = x0, y0 = mid[0].y, y1 = y0, widest = 0;
  for (size_t i = 0; i < mid.size(); ++i) {
    x0 = std::min(x0, mid[i].x), x1 = std::max(x1, mid[i].x);
    y0 = std::min(y0, mid[i].y), y1 = std::max(y1, mid[i].y);
    widest = std::max({widest, ribbon.left[i], ribbon.right[i]});
  }
  x0 -= widest, y0 -= widest, x1 += widest, y1 += widest;
  const cv::Size grid(static_cast<int>((x1 - x0) / cell) + 1, static_cast<int>((y1 - y0) / cell) + 1);
  BodyCoordinates k;
  k.photo_from_grid = cv::Matx23d(cell, 0, x0, 0, cell, y0);
  k.p_belly = cv::Mat1f::zeros(grid);
  k.p_clear = cv::Mat1f::zeros(grid);
  k.uv = cv::Mat2f::zeros(grid);
  for (int gy = 0; gy < grid.height; ++gy)
    for (int gx = 0; gx < grid.width; ++gx) {
      const cv::Point2d p(x0 + (gx + 0.5) * cell, y0 + (gy + 0.5) * cell);
      const RibbonPlace at = place_on(ribbon, p);
      if (at.across > 1 || at.along < 0 || at.along > 1) continue;
      k.uv(gy, gx) = {static_cast<float>(at.along), static_cast<float>(v_of(at))};
      k.p_belly(gy, gx) = 1;
      k.p_clear(gy, gx) = p.x >= 0 && p.y >= 0 && p.x < photo.width && p.y < photo.height ? 1.f : 0.f;
    }
  return k;
}

}  // namespace evet
