// Learns the matching model from patterns of known identity.
//
// Every pattern is once the query and all others of its world are the gallery. Same-animal pairs are all
// taken; of different-animal pairs the nearest by code are all taken, and of the rest a sample that stands
// for all of them by its weight: so the tail that matters is seen without aligning every pair.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "matcher/search/compare.h"
#include "matcher/search/likelihood.h"

namespace evet::train {

struct KnownPattern {
  std::uint64_t world = 0;  // patterns of two worlds are never compared
  std::uint32_t individual = 0;
  double years = 0;
  Pattern pattern;
};

struct FitOptions {
  int nearest = 10;  // different-animal patterns aligned for each query, nearest by code
  int sampled = 10;  // and of the rest
  double ridge = 0.3;
  int threads = 2;
  std::uint64_t seed = 1;
  CompareOptions compare;
};

struct ComparedPair {
  size_t query = 0, gallery = 0;  // indices of the patterns
  bool same = false;
  double weight = 1;  // different-animal pairs that it stands for
  Measures measures{};
};

// In order of query, whatever the number of threads.
std::vector<ComparedPair> compare_pairs(const std::vector<KnownPattern>& patterns, const FitOptions& options);

MatchingModel fit_matching_model(const std::vector<KnownPattern>& patterns,
                                 const std::vector<ComparedPair>& pairs, const FitOptions& options);

}  // namespace evet::train
