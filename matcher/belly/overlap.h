// How far two sets of body coordinates speak of the same patch of a photo.
#pragma once
#include "matcher/belly/body_coordinates.h"

namespace evet {

// Intersection over union, in [0,1], of the photo's areas that each takes for belly (p_belly >= 0.5).
double belly_overlap(const BodyCoordinates& one, const BodyCoordinates& other, cv::Size photo);

}  // namespace evet
