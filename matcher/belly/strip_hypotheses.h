// Several ways to lay the strip over what the network saw, each judged by what it explains.
//
// The network gives an outline and coordinates within it. Mostly both say the same. Where the coordinates are
// wrong (an animal unlike any seen before) the outline still shows where the belly lies, by its own medial
// line; where the outline is torn, the coordinates bridge it. So three maps are tried: along the coordinates
// alone; along the outline's medial line, with ends and roll as the coordinates have them in the mean; along
// the medial line alone. The last two cannot run away: they are ribbons of the outline's own width.
#pragma once
#include <optional>
#include <vector>

#include "matcher/belly/body_coordinates.h"
#include "matcher/belly/fit_strip.h"
#include "matcher/belly/strip_support.h"

namespace evet {

enum class LaidAlong { coordinates, outline_and_coordinates, outline };

struct StripHypothesis {
  LaidAlong along = LaidAlong::coordinates;
  BodyCoordinates coordinates;  // the network's, with u and v as this hypothesis has them
  StripFit fit;
  StripSupport support;
  double preference = 0;  // among hypotheses of one picture
  double log_odds = 0;    // that the strip lies within an eighth of a length of the truth, see p_laid_right
};

// Probability that a strip lies right, from its log odds.
double p_laid_right(const StripHypothesis& laid);

// Best first; those that no newt could be shaped like are left out. Empty: nothing explains the picture.
std::vector<StripHypothesis> strip_hypotheses(const BodyCoordinates& coordinates, cv::Size photo);

}  // namespace evet
