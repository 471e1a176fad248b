// Body coordinates from the belly network, which looks twice.
//
// The first look takes the whole picture and gives place, direction and size; the second a crop turned head
// up in which the belly fills four fifths, so that a small or oblique belly is seen as finely as a large
// straight one; a wide one beside it shows head, limbs and tail, which say what end is the head. Where that
// is in doubt both are taken the other way up as well, and the better supported is kept. The second look is
// the mean of itself and its mirror image, whose errors are partly its own.
#pragma once
#include <functional>

#include "matcher/belly/belly_gate.h"
#include "matcher/belly/body_coordinates.h"
#include "matcher/belly/head_end.h"
#include "matcher/photo/photo.h"

namespace evet {

// What looks: a square of kLookSide pixels and where it lies in the photo. BellyNet::look,
// or an oracle in tests.
using Looker = std::function<BodyCoordinates(const cv::Mat3b& look, const cv::Matx23d& photo_from_look)>;

// A square look of kLookSide pixels, averaged from the photo, grey where it reaches beyond the picture.
cv::Mat3b take_look(const cv::Mat3b& photo, const cv::Matx23d& photo_from_look);

// What the looks gave before it was made into odds: for fitting those odds (tools/train/laying_facts.h).
struct LookFacts {
  GateFacts gate;
  HeadEvidence close, wide;    // head up as the coordinates returned have it
  bool looked_closer = false;  // the first look saw enough to be followed by others
};

// confidence near 0: no belly found.
BodyCoordinates coordinates_from_looks(const Photo& photo, const Looker& looker, LookFacts* facts = nullptr);

// With the library's own weights; confidence 0 when it was built without.
BodyCoordinates coordinates_from_network(const Photo& photo);

}  // namespace evet
