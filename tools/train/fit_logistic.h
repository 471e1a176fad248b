// Fits a LogisticModel by ridge-penalised maximum likelihood.
#pragma once
#include <vector>

#include "matcher/search/likelihood.h"

namespace evet::train {

struct Example {
  std::vector<double> inputs;
  bool same = false;
  double weight = 1;
};

// Both kinds are brought to equal total weight, so that log odds are log-likelihood ratios. `ridge` is the
// penalty on every weight but the bias, in units of one example; Newton steps until nothing moves.
LogisticModel fit_logistic(const std::vector<Example>& examples, double ridge);

// Log-likelihood-ratio cost in bits (Brümmer & du Preez 2006): 0 perfect, 1 says nothing.
double llr_cost(const std::vector<double>& llrs, const std::vector<bool>& same);
// Its part that no rescaling can remove: the same after the best monotone map (pool adjacent violators).
double least_llr_cost(const std::vector<double>& llrs, const std::vector<bool>& same);

}  // namespace evet::train
