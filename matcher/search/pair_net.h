// What a small network, trained on aligned maps of one animal and of two, makes of such a pair: it has seen
// how spots grow, how maps err and which differences tell (models/weights/pairs.md).
#pragma once
#include "matcher/search/align.h"

namespace evet {

// Natural logarithm of the likelihood ratio as the network has learned it; not calibrated: one measure among
// others (evidence.h). Both levels are fine ones in one frame, `earlier` photographed before `later`.
double judged(const Level& earlier, const Level& later);

}  // namespace evet
