// The spots of a map, one by one.
#pragma once
#include <vector>

#include "matcher/pattern/pattern.h"

namespace evet {

// Connected dark areas (8-neighbours, at least half dark) of at least `min_area`, a share of the canvas.
// Ordered by u, then v. Elongation and angle are those of the second moments on the canvas, whose cells are
// taken as square.
std::vector<Spot> list_spots(const SpotMap& map, double min_area);

}  // namespace evet
