// From likelihood ratios to probabilities over every individual and "new", and to what a person should do.
#pragma once
#include <vector>

#include "matcher/search/rank.h"

namespace evet {

struct Posterior {
  std::vector<double> individual;  // in the order of the ratios given
  double is_new = 1;               // with the others sums to 1
};
// `llrs`: natural log, same against different, one an individual of the gallery. The prior of a recapture is
// shared evenly among them and as many more as are known not to be it.
Posterior posterior(const std::vector<double>& llrs, double prior_recapture, size_t ruled_out = 0);

// The same as log odds of each individual against everything else: exact where probabilities round to 1.
std::vector<double> posterior_log_odds(const std::vector<double>& llrs, double prior_recapture);

// What acting without a look is expected to cost, in missed joins. Joining an animal to the wrong one is
// `wrong_join_over_missed` times as bad as a join that is missed.
double cost_of_joining(double p_best, const SearchOptions& costs);
double cost_of_calling_new(double p_new);

// The cheapest of three: join to the likeliest, call it new, or ask a person (Wald 1950, Statistical Decision
// Functions: least expected cost). `p_new`: that it is a new animal, and no other capture's.
Advice advise(double p_best, double p_new, const SearchOptions& costs);

// Keeps the best `keep`, and as many more as it takes for those left out to hold less than a thousandth
// together; then the listed and `new_probability` are brought to the sum 1. `candidates` in any order.
void keep_best(RankedCapture& ranked, int keep);

}  // namespace evet
