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

struct LogisticFit {
  // +1, -1 or 0 an input: a weight that comes out the other way round is held at nought and
  // the rest fitted again.
  std::vector<int> signs;
  double ridge = 0.3;  // penalty on every weight but the bias, in units of one example
  // Prior probabilities of "same" at which the log odds, less those of the prior, should be right as
  // likelihood ratios; each counts by its cost relative to knowing only the prior. At one half alone, what
  // rare pairs of different individuals with high ratios are worth is hardly heard; in a catalogue of a
  // thousand they decide. Brümmer & du Preez 2006, Computer Speech and Language 20:230, section 5.
  std::vector<double> priors = {0.5};
};

// Newton steps until nothing moves. Both kinds are brought to the prior's share of the weight whatever their
// numbers. Errors: bad_input where one kind is missing, usage for a prior not between 0 and 1.
LogisticModel fit_logistic(const std::vector<Example>& examples, const LogisticFit& fit);

}  // namespace evet::train
