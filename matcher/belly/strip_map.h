// A smooth map from the strip to the photo: x(u, v) = sum_ij c_ij B_i(u) v^j.
//
// B_i are uniform cubic B-splines along the belly, v^j powers up to the cube across it: the fewest terms that
// follow an S-bend and the foreshortening of a rolled barrel (x ~ sin(angle) across). Outside the spline's
// range the map goes on along its tangent. Source: de Boor, A Practical Guide to Splines (1978).
#pragma once
#include <array>
#include <opencv2/core.hpp>

namespace evet {

struct StripMap {
  static constexpr int kSegments = 10;
  static constexpr int kBasis = kSegments + 3;
  static constexpr int kPowers = 4;
  static constexpr double kUMin = -0.125, kUMax = 1.125;  // range of the spline; the strip is u in [0, 1]

  // The four splines alive at u, their indices starting at `first`, with derivatives with respect to u.
  struct Local {
    int first = 0;
    std::array<double, 4> value{}, slope{};
  };
  static Local local(double u);  // u is clamped to the spline's range

  std::array<std::array<cv::Vec2d, kPowers>, kBasis> c{};  // photo frame, pixels of Photo::bgr

  cv::Point2d at(double u, double v) const;
  cv::Matx22d jacobian(double u, double v) const;  // columns: d/du, d/dv
};

}  // namespace evet
