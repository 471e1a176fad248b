// What a small network, trained on aligned maps of one animal and of two, makes of such a pair: it has seen
// how spots grow, how maps err and which differences tell (models/weights/pairs.md).
#pragma once
#include <cstddef>
#include <span>

#include "matcher/search/align.h"

namespace evet {

// Natural logarithm of the likelihood ratio as the network has learned it; not calibrated: one measure among
// others (evidence.h). Both levels are fine ones in one frame, `earlier` photographed before `later`.
double judged(const Level& earlier, const Level& later);

// The same of the network's own input, on half the spot map's frame: of the earlier map, then of the later
// drawn onto it, (probability dark - 0.5) x weight, and weight. Error: unsupported, for other planes.
double judged(const std::vector<cv::Mat1f>& planes);

std::span<const std::byte> pair_weights();  // as they lie in the library

}  // namespace evet
