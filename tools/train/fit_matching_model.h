// Learns the matching model from compared pairs of patterns of known identity.
#pragma once
#include <vector>

#include "matcher/search/likelihood.h"
#include "tools/train/known_pairs.h"

namespace evet::train {

MatchingModel fit_matching_model(const std::vector<ComparedPair>& pairs, const FitOptions& options);

}  // namespace evet::train
