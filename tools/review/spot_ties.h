// Which spots of two laid strips answer each other, for drawing.
#pragma once
#include <nlohmann/json.hpp>

#include "matcher/search/compare.h"

namespace evet::review {

// Lays `moving` onto `fixed`. Strips that have nothing in common to compare are laid edge to edge.
Comparison lay(const Pattern& fixed, const Pattern& moving);

// See Pictures::evidence(). `laid`: the candidate onto the capture.
nlohmann::json ties_json(const Pattern& capture, const Pattern& candidate, const Comparison& laid);

}  // namespace evet::review
