// Pairs of patterns whose identity is known, compared as the search does: what the matching model learns from.
//
// Every pattern is once the query and all others are the gallery. Same-animal pairs are all taken; of the
// other animals those nearest by code are taken, and of the rest a sample that stands for all of them by its
// weight: so the tail that matters is seen without aligning every pair.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "matcher/search/compare.h"

namespace evet::train {

struct KnownPattern {
  std::uint64_t world = 0;  // with `individual` says which animal it is
  std::uint32_t individual = 0;
  double years = 0;
  Pattern pattern;
  bool searched = true;  // false: only ever one of the gallery, as an animal that was not photographed
};

struct FitOptions {
  int nearest = 5;  // other animals aligned with each query, nearest by code
  int sampled = 4;  // and of the rest
  int photos = 3;   // of each of them, the nearest by code
  double ridge = 0.3;
  // Of a catalogue, from a search for one animal to one among thousands.
  std::vector<double> priors = {0.5, 0.05, 0.005, 0.0005};
  int threads = 2;
  std::uint64_t seed = 1;
  CompareOptions compare;
};

struct ComparedPair {
  size_t query = 0, gallery = 0;  // indices of the patterns
  size_t animal = 0;              // number of the animal that `gallery` shows
  bool same = false;
  double weight = 1;  // pairs of its kind that it stands for
  double independent =
      1;  // the same, less those that are this pair the other way round: for the claims' caps
  Measures measures{};
  Order order = Order::unknown;
  Alignment alignment;  // of the query, turned end for end first if `turned`, with the gallery's pattern
  bool turned = false;
};

// One pattern as the query.
std::vector<ComparedPair> compare_query(const std::vector<KnownPattern>& patterns, size_t query,
                                        const FitOptions& options);

// In order of query, whatever the number of threads.
std::vector<ComparedPair> compare_pairs(const std::vector<KnownPattern>& patterns, const FitOptions& options);

}  // namespace evet::train
