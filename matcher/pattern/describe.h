// A spot map as one short vector, for the shortlist of a large gallery.
#pragma once
#include <vector>

#include "matcher/pattern/pattern.h"
#include "matcher/pattern/placement.h"

namespace evet {

inline constexpr int kDescriptorAlong = 24;
inline constexpr int kDescriptorAcross = 8;

// The smoothed map on a coarse grid, less its mean, zero where unknown, brought to unit length: the inner
// product of two descriptors is close to the correlation of the maps at low frequencies. `placement` reads
// the map as if it lay elsewhere (see placement.h). All zero when nothing is known.
std::vector<float> describe(const SpotMap& map, const Placement& placement = {});

}  // namespace evet
