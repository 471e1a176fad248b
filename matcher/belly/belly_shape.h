// The geometry of a found belly, read from its map: midline, edges, outline, length, bend, roll.
#pragma once
#include "matcher/belly/body_coordinates.h"
#include "matcher/belly/fit_strip.h"
#include "matcher/belly/strip.h"

namespace evet {

// `full_per_px`: pixels of the full-size picture per pixel of the photo frame, for the length.
BellyShape measure_shape(const BodyCoordinates& coordinates, const StripFit& fit, double full_per_px);

}  // namespace evet
