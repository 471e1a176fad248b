// Which spots of two laid strips answer each other, for drawing.
//
// Laid as the search lays them, with the candidate as the frame of the alignment: so the spots that are tied on
// the light table are the very ones that the ranking counted for these two photos.
#pragma once
#include <nlohmann/json.hpp>

#include "matcher/search/compare.h"

namespace evet::review {

// The capture's strip laid onto the candidate's. Strips that have nothing in common to compare
// are laid edge to edge.
Comparison lay(const Pattern& capture, const Pattern& candidate);

// Of each pixel centre of a rows x cols canvas in the capture's frame: (u, v) on the candidate's own strip. The
// alignment is followed backwards by fixed-point iteration, which is enough for a smooth map near the identity.
cv::Mat2f candidate_from_capture(const Comparison& laid, int rows, int cols);

// See Pictures::evidence().
nlohmann::json ties_json(const Pattern& capture, const Pattern& candidate, const Comparison& laid);

}  // namespace evet::review
