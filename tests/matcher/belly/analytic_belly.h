// A belly whose every point is known in closed form: a barrel of constant width along a plane curve, rolled
// by an angle. The oracle for straightening.
#pragma once
#include <algorithm>
#include <cmath>
#include <functional>
#include <opencv2/core.hpp>
#include <random>
#include <vector>

#include "matcher/belly/body_coordinates.h"
#include "matcher/photo/photo.h"

namespace evet {

struct AnalyticBelly {
  double length = 600, half_width = 84;  // pixels; the half-width is the barrel's radius
  double barrel_angle = 1.2;             // skin v = 1 lies so far round the barrel from v = 0, radians
  double roll_angle = 0;                 // skin v shows at angle v * barrel_angle + roll_angle
  std::function<double(double)> heading = [](double) { return 0.0; };  // at arc share u; 0 = down the picture
  cv::Point2d middle{500, 500};
  cv::Size picture{1000, 1000};
  std::vector<cv::Point2d> curve;  // filled by trace()

  static constexpr int kSteps = 3000;

  AnalyticBelly& trace() {
    curve.assign(1, {0, 0});
    for (int i = 0; i < kSteps; ++i) {
      const double h = heading((i + 0.5) / kSteps), step = length / kSteps;
      curve.push_back(curve.back() + cv::Point2d(-std::sin(h) * step, std::cos(h) * step));
    }
    const cv::Point2d shift = middle - curve[kSteps / 2];
    for (cv::Point2d& p : curve) p += shift;
    return *this;
  }
  cv::Point2d tangent(double u) const {
    const double h = heading(u);
    return {-std::sin(h), std::cos(h)};
  }
  cv::Point2d at(double u, double v) const {
    const double s = u * kSteps;
    const int i = std::clamp(static_cast<int>(s), 0, kSteps - 1);
    const cv::Point2d t = tangent(std::clamp(u, 0.0, 1.0));
    const cv::Point2d on = curve[i] + (curve[i + 1] - curve[i]) * (s - i);
    return on + cv::Point2d(t.y, -t.x) * (half_width * std::sin(v * barrel_angle + roll_angle));
  }
  bool faces(double v) const { return std::abs(v * barrel_angle + roll_angle) < 1.5; }

  // (u, v) of a photo point; false when it shows no belly.
  bool find(const cv::Point2d& p, double& u, double& v) const {
    double nearest = 1e300;
    int best = 0;
    const auto search = [&](int from, int to, int step) {
      for (int i = from; i <= to; i += step) {
        const cv::Point2d d = p - curve[i];
        if (d.dot(d) < nearest) nearest = d.dot(d), best = i;
      }
    };
    search(0, kSteps, 75);
    search(std::max(best - 75, 0), std::min(best + 75, kSteps), 5);
    const cv::Point2d t = tangent(static_cast<double>(best) / kSteps), d = p - curve[best];
    u = (best + d.dot(t) / length * kSteps) / kSteps;
    const double side = d.dot({t.y, -t.x}) / half_width;
    if (u < 0 || u > 1 || std::abs(side) >= 0.998) return false;
    v = (std::asin(side) - roll_angle) / barrel_angle;
    return std::abs(v) <= 1;
  }

  BodyCoordinates coordinates(int grid_long_side = 128) const {
    const double cell = static_cast<double>(std::max(picture.width, picture.height)) / grid_long_side;
    BodyCoordinates k;
    const cv::Size grid(cvRound(picture.width / cell), cvRound(picture.height / cell));
    k.photo_from_grid = cv::Matx23d(cell, 0, 0, 0, cell, 0);
    k.p_belly = cv::Mat1f::zeros(grid);
    k.p_clear = cv::Mat1f::zeros(grid);
    k.uv = cv::Mat2f::zeros(grid);
    k.error = cv::Mat1f(grid, 0.02f);
    k.confidence = 1;
    k.source = "network";
    for (int y = 0; y < grid.height; ++y)
      for (int x = 0; x < grid.width; ++x) {
        double u = 0, v = 0;
        if (!find({(x + 0.5) * cell, (y + 0.5) * cell}, u, v)) continue;
        k.uv(y, x) = {static_cast<float>(u), static_cast<float>(v)};
        k.p_belly(y, x) = k.p_clear(y, x) = 1;
      }
    return k;
  }

  // The picture of a skin painted with grey level `paint(u, v)`.
  Photo photo(const std::function<double(double, double)>& paint) const {
    Photo out;
    out.bgr = cv::Mat3b(picture, cv::Vec3b(90, 90, 90));
    for (int y = 0; y < picture.height; ++y)
      for (int x = 0; x < picture.width; ++x) {
        double u = 0, v = 0;
        if (find({x + 0.5, y + 0.5}, u, v))
          out.bgr(y, x) = cv::Vec3b::all(cv::saturate_cast<uchar>(paint(u, v)));
      }
    return out;
  }
};

inline AnalyticBelly straight_belly() {
  return AnalyticBelly().trace();
}

inline AnalyticBelly arc_belly(double turn_deg) {
  AnalyticBelly belly;
  const double turn = turn_deg * CV_PI / 180;
  belly.heading = [turn](double u) { return turn * (u - 0.5); };
  return belly.trace();
}

inline AnalyticBelly s_belly(double turn_deg) {  // turns one way and back again
  AnalyticBelly belly;
  const double turn = turn_deg * CV_PI / 180;
  belly.heading = [turn](double u) { return turn / 2 * std::cos(2 * CV_PI * u); };
  return belly.trace();
}

}  // namespace evet
