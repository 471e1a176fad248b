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
// penalty on every weight but the bias, in units of one example; Newton steps until nothing moves. `signs`,
// +1, -1 or 0 an input: a weight that comes out the other way round is held at nought and the rest fitted
// again.
LogisticModel fit_logistic(const std::vector<Example>& examples, const std::vector<int>& signs, double ridge);

}  // namespace evet::train
