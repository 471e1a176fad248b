// Learns what the best of several tries is worth (BestOfTries, matcher/search/likelihood.h).
#pragma once
#include <cstddef>
#include <vector>

#include "matcher/search/likelihood.h"
#include "tools/train/known_pairs.h"

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

// Cost of the capped ratios relative to knowing only the prior, the mean over the priors and the numbers of
// tries; each kind counts alike. Numbers of tries at which one kind is missing, and single tries, which it is
// the same for, are passed over; 0 where none is left. Errors: usage for a prior not between 0 and 1.
double best_of_cost(const std::vector<BestOf>& examples, const BestOfTries& at, const MatchingModel& caps,
                    const std::vector<double>& priors);

// The least of that cost that small changes of the two numbers lead to, from the union bound on; the union
// bound where nothing was tried several times. Errors: as above.
BestOfTries fit_best_of(const std::vector<BestOf>& examples, const MatchingModel& caps,
                        const std::vector<double>& priors);

}  // namespace evet::train
