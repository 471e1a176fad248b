// From a photo to a straightened belly, or a plain "no belly found".
#pragma once
#include <optional>
#include <vector>

#include "matcher/belly/body_coordinates.h"
#include "matcher/belly/fit_strip.h"
#include "matcher/belly/quality.h"
#include "matcher/belly/scale_card.h"
#include "matcher/belly/strip.h"
#include "matcher/photo/photo.h"

namespace evet {

struct BellyOptions {
  // A user's own midline, throat fold first, in pixels of the full-size upright picture;
  // overrides what is found.
  std::vector<cv::Point2d> midline;
  void check() const;
};

struct BellyFinding {
  BodyCoordinates coordinates;  // as the strip was laid along them
  std::optional<StripFit> fit;  // with the strip
  BellyShape shape;
  std::optional<Strip> strip;  // absent when no belly was found
  Quality quality;
  std::optional<ScaleCard> card;   // looked for beside every strip
  std::vector<QualityNote> notes;  // empty when nothing is to be said
  bool usable() const;             // a strip, and no note that blocks
};

// Errors: usage for a midline that is none; bad_input for a photo without pixels.
BellyFinding find_belly(const Photo& photo, const BellyOptions& options = {});

// The network's plain yes and plain no stand; between them its confidence grows if geometry alone finds the
// same patch.
BodyCoordinates with_second_opinion(const Photo& photo, BodyCoordinates network);

// The second half of find_belly, for coordinates from any source.
BellyFinding strip_from_coordinates(const Photo& photo, BodyCoordinates coordinates);

}  // namespace evet
