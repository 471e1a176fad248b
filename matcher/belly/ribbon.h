// A midline with a half-width to either side: the simplest body a belly can have, and its coordinates.
#pragma once
#include <vector>

#include "matcher/belly/body_coordinates.h"

namespace evet {

struct Ribbon {
  std::vector<cv::Point2d> midline;  // throat fold to vent, evenly spaced, photo frame, at least two points
  std::vector<double> left, right;   // half-widths at each point, pixels; left as seen with the head up
};

// A smooth curve through the points (natural cubic spline over chord length), resampled evenly.
std::vector<cv::Point2d> smooth_curve(const std::vector<cv::Point2d>& through, int points);
double curve_length(const std::vector<cv::Point2d>& curve);
// Unit vectors to the left of the direction of travel from head to vent, as seen with the head up.
std::vector<cv::Point2d> left_normals(const std::vector<cv::Point2d>& curve);

// The part of a barrel's half circumference that is belly: +-60 degrees, common practice, no source.
inline constexpr double kBarrelAngle = 1.0472;

// Where a point lies on a ribbon: along it, 0 at the first point of the midline to 1 at the last, beyond at
// the ends; across it, in half-widths, >= 0; and to which side.
struct RibbonPlace {
  double along = 0, across = 0;
  bool left = false;
};
RibbonPlace place_on(const Ribbon& ribbon, const cv::Point2d& p);
// v of a place, the cross-section taken for a barrel of that angle; beyond the edge as far as the place lies.
double v_of(const RibbonPlace& place);

// On a grid of about 80 cells to the ribbon's length; the cross-section is taken for a barrel of that angle.
// p_clear = p_belly inside the picture; the providers that know better lower it.
BodyCoordinates coordinates_of(const Ribbon& ribbon, cv::Size photo);

}  // namespace evet
