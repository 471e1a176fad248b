// Body coordinates from the belly network, which looks twice.
//
// The first look takes the whole picture and gives place, direction and size; the second a crop turned head
// up in which the belly fills four fifths, so that a small or oblique belly is seen as finely as a large
// straight one. Where the head end is in doubt the second look is taken both ways up and the better supported
// is kept. The second look is the mean of itself and its mirror image, whose errors are partly its own.
#pragma once
#include <functional>

#include "matcher/belly/body_coordinates.h"
#include "matcher/photo/photo.h"

namespace evet {

// What looks: a square of kLookSide pixels and where it lies in the photo. BellyNet::look, or an oracle in
// tests.
using Looker = std::function<BodyCoordinates(const cv::Mat3b& look, const cv::Matx23d& photo_from_look)>;

// A square look of kLookSide pixels, averaged from the photo, grey where it reaches beyond the picture.
cv::Mat3b take_look(const cv::Mat3b& photo, const cv::Matx23d& photo_from_look);

// confidence near 0: no belly found.
BodyCoordinates coordinates_from_looks(const Photo& photo, const Looker& looker);

// With the library's own weights; confidence 0 when it was built without.
BodyCoordinates coordinates_from_network(const Photo& photo);

}  // namespace evet
