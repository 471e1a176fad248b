// From a strip and its geometry to the measures kept with the photo, and from those to advice.
#pragma once
#include <vector>

#include "matcher/belly/body_coordinates.h"
#include "matcher/belly/fit_strip.h"
#include "matcher/belly/quality.h"
#include "matcher/belly/sample_strip.h"
#include "matcher/belly/strip.h"

namespace evet {

Quality measure_quality(const BodyCoordinates& coordinates, const StripFit& fit, const BellyShape& shape,
                        const Strip& strip);

// Where a measure starts to cost matches (advice) and where it leaves nothing to match (blocks).
struct QualityLimits {
  // From 0.08 to 0.12 every probe of quality_bench still ranks first (tuning world 171, 24 individuals).
  double sharpness_advice = 0.09, sharpness_block = 0.05;
  double glare_advice = 0.12, glare_block = 0.60;
  double dark_advice = 0.25, dark_block = 0.80;
  double seen_advice = 0.70, seen_block = 0.35;
  double length_advice_px = 250, length_block_px = 90;
  double bend_advice_deg = 110;
  double roll_advice = 0.35;
  double p_belly_block = 0.50;
  void check() const;
};

// In order of weight; what blocks comes first. Empty when nothing is to be said. `unseen`: why what is not seen
// is not, as far as it is known.
std::vector<QualityNote> advise(const Quality& quality, const UnseenShares& unseen = {},
                                const QualityLimits& limits = {});

}  // namespace evet
