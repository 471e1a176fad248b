// What an error costs at each of several priors, relative to knowing only the prior.
// Brümmer & du Preez 2006, Computer Speech and Language 20:230, section 5.
#pragma once
#include <cmath>
#include <vector>

#include "matcher/base/error.h"
#include "matcher/belly/messages.h"

namespace evet::train {

struct CostShare {
  double log_odds = 0;                   // of the prior
  double of_same = 0, of_different = 0;  // weight of the mean cost of each kind
};

// Errors: usage for a prior not between 0 and 1.
inline std::vector<CostShare> cost_shares(const std::vector<double>& priors) {
  std::vector<CostShare> out;
  for (const double p : priors) {
    if (!(p > 0 && p < 1)) throw Error(ErrorKind::usage, "prior", messages::kIsNotBetween0And);
    const double knowing_it = -(p * std::log2(p) + (1 - p) * std::log2(1 - p));
    const double share = 1 / (knowing_it * static_cast<double>(priors.size()));
    out.push_back({std::log(p / (1 - p)), p * share, (1 - p) * share});
  }
  return out;
}

}  // namespace evet::train
