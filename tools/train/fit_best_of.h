// Learns what the best of several tries is worth (BestOfTries, matcher/search/likelihood.h).
#pragma once
#include <cstddef>
#include <vector>

#include "matcher/search/likelihood.h"
#include "tools/train/fit_matching_model.h"

namespace evet::train {

// One capture against one animal, tried on some of its photos.
struct BestOf {
  double llr = 0;  // the highest of the tries, natural log
  std::size_t tries = 1;
  bool same = false;
  double weight = 1;
};

// Every choice of up to `most` of the photos of an animal that a query was aligned with; the choices of one
// number weigh together what the animal's pairs do on the mean.
std::vector<BestOf> best_of_tries(const std::vector<ComparedPair>& pairs, const MatchingModel& model,
                                  std::size_t most);

// The least cost of the capped ratios that any small change of the two numbers leads to, from the union bound
// on; each number of tries counts alike, and each kind within it. Numbers of tries at which one kind is
// missing are passed over, and without any from two up it is the union bound. Errors: usage for a prior not
// between 0 and 1.
BestOfTries fit_best_of(const std::vector<BestOf>& examples, const MatchingModel& caps,
                        const std::vector<double>& priors);

}  // namespace evet::train
