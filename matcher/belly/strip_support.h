// What speaks for a map from strip to photo: the belly that it covers, and whether a newt can be shaped so.
//
// A map can agree with the few coordinates that it was fitted to and run ten bellies wide beside them. So it
// is held to the outline as well, which it was not fitted to, and to bounds of what a newt's belly can be:
// half-width 6 to 30 % of its length, no turn beyond half a circle and a bit (common practice, no source).
#pragma once
#include "matcher/belly/body_coordinates.h"
#include "matcher/belly/strip_map.h"

namespace evet {

struct StripSupport {
  double mask_covered = 0;    // [0,1]: of the belly's weight, how much lies under the strip
  double strip_on_belly = 0;  // [0,1]: of the strip's inner part within the picture, how much is belly
  double field_agrees = 0;    // [0,1]: of the belly under the strip, where map and coordinates say the same
  double half_width = 0;      // half the chord from v = -1 to 1, median along the belly, in its lengths
  double narrowest = 0, widest = 0;  // the same at its least and most, u 0.1 to 0.9
  double bend_deg = 0;               // total turn of the midline
  double length_over_extent = 0;     // of the midline against the belly's greatest extent in the picture

  bool possible() const;         // within the bounds above
  double outline_match() const;  // [0,1]: how far strip and belly are one area
};

// `map`: photo frame. `coordinates`: the network's own, whose p_belly is the outline.
StripSupport support_of(const StripMap& map, const BodyCoordinates& coordinates, cv::Size photo);

}  // namespace evet
