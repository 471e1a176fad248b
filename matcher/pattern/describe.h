// A spot map as one short vector, for the shortlist of a large gallery and as evidence of its own.
#pragma once
#include <vector>

#include "matcher/pattern/pattern.h"

namespace evet {

inline constexpr int kDescriptorLength = 128;

// By the embedding network, brought to unit length: two maps of one animal have a large inner product, also
// when they lie a little differently on the canvas or have grown. All zero when nothing is known.
std::vector<float> describe(const SpotMap& map);

// Cosine of two descriptors, -1 .. 1; 0 when either knows nothing.
double cosine_similarity(const std::vector<float>& a, const std::vector<float>& b);

}  // namespace evet
