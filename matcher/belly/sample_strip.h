// Fill the strip's canvas from the photo, and say which of it is skin plainly seen.
#pragma once
#include "matcher/belly/body_coordinates.h"
#include "matcher/belly/strip.h"
#include "matcher/belly/strip_map.h"
#include "matcher/photo/photo.h"

namespace evet {

struct SampleOptions {
  double min_clear = 0.5;        // p_clear below it is covered
  double max_u_mismatch = 0.06;  // strip and body coordinates may differ by so much: beyond, the map shows
  double max_v_mismatch = 0.30;  // other skin than it claims (behind the horizon of a rolled animal, a leaf)
};

// Each canvas pixel averages the photo over the skin it stands for, so that a large photo does not alias.
cv::Mat3b straighten(const cv::Mat3b& photo, const StripMap& photo_from_strip, cv::Size canvas);

// 255 where the map shows, inside the picture, skin that the coordinates call clear and
// place where the map does.
cv::Mat1b seen_mask(cv::Size photo, const StripMap& photo_from_strip, const BodyCoordinates& coordinates,
                    const SampleOptions& options = {});

// Why the rest of the canvas is not seen, in shares of it.
struct UnseenShares {
  double outside = 0;    // beyond the edge of the picture
  double covered = 0;    // something lies over the skin
  double elsewhere = 0;  // the picture shows no belly there, or other skin: turned away, or laid wrongly
  double glare = 0;      // reflected light
};
UnseenShares unseen_shares(cv::Size photo, const StripMap& photo_from_strip,
                           const BodyCoordinates& coordinates, const Strip& strip,
                           const SampleOptions& options = {});

// Straightened, with what is seen of it; glare is taken out of the mask.
Strip sample_strip(const Photo& photo, const StripMap& photo_from_strip, const BodyCoordinates& coordinates,
                   const SampleOptions& options = {});

}  // namespace evet
