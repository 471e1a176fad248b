// Body coordinates from a user's own midline: the points override whatever would have been found.
#pragma once
#include <vector>

#include "matcher/belly/body_coordinates.h"
#include "matcher/photo/photo.h"

namespace evet {

// `midline`: throat fold first, vent last, photo frame, pixels of Photo::bgr, at least two points. A curve
// through them (chord-length cubic spline) is the midline; the belly reaches as far across as its colour
// does, within what bellies measure (half-width 7 to 22 % of length). The cross-section is taken for half a
// barrel. Errors: usage, when there are fewer than two distinct points or more than kMostMidlinePoints, a
// point lies outside the picture by more than a tenth of its longer side, or the curve is longer than any
// belly that a picture holds: what is looked at grows with the curve, not with the picture.
inline constexpr size_t kMostMidlinePoints = 200;
BodyCoordinates coordinates_from_midline(const Photo& photo, const std::vector<cv::Point2d>& midline);

}  // namespace evet
