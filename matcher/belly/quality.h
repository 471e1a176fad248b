// How good a photo of a belly is, and what a surveyor can do about it before release.
#pragma once
#include <string>
#include <vector>

namespace evet {

// Measures kept with every photo. Shares are of the belly's area, in [0,1].
struct Quality {
  double sharpness =
      0;  // edge strength on the belly relative to its contrast, free of scale; higher is sharper
  double glare_share = 0;            // hidden by reflected light
  double dark_share = 0;             // too dark to tell spot from ground
  double seen_share = 0;             // of the unrolled belly that is seen plainly (the strip's valid share)
  double belly_length_px = 0;        // along the midline, full-size picture
  double belly_length_mm = 0;        // the same by a scale card in the picture; 0: none was seen
  double belly_length_error_mm = 0;  // its standard deviation
  double bend_deg = 0;
  double roll = 0;     // half-widths, absolute
  double p_belly = 0;  // that this is a large newt's belly at all
};

// One finding about a photo. `blocks`: the photo cannot be matched and counts as a failure to acquire.
struct QualityNote {
  std::string measure;   // "glare_share", "no_belly", ...: stable, for JSON
  std::string sentence;  // what is wrong and what to do, for the surveyor
  bool blocks = false;
};

}  // namespace evet
