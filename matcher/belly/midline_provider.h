// Body coordinates from a user's own midline: the points override whatever would have been found.
#pragma once
#include <vector>

#include "matcher/belly/body_coordinates.h"
#include "matcher/photo/photo.h"

namespace evet {

// `midline`: throat fold first, vent last, photo frame, pixels of Photo::bgr, at least two points. A curve
// through them (chord-length cubic spline) is the midline; the belly reaches as far across as its colour
// does, within what bellies measure (half-width 7 to 22 % of length). The cross-section is taken for half a
// barrel. Error: usage, when there are fewer than two distinct points or the curve leaves the picture wholly.
BodyCoordinates coordinates_from_midline(const Photo& photo, const std::vector<cv::Point2d>& midline);

}  // namespace evet
