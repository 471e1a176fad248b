// Learns the catalogue's own calibration (search/llr_map.h) from its confirmed pairs, and
// says whether it helps.
//
// The two parameters minimise the log-likelihood-ratio cost, same and different pairs weighing alike, with a
// ridge towards the shipped model: as many individuals as there are stand against prior spreads of 0.25 for
// the logarithm of the scale and 0.5 for the shift, so that few individuals move little. How much it helps is
// measured by cross-validation: individuals are dealt into folds, and a pair is scored by a map that was
// learned without either of its individuals. The gain's interval resamples individuals.
#pragma once
#include <string>

#include "tools/trial/trial_score.h"

namespace evet::trial {

struct RefitOptions : ResampleOptions {
  int folds = 10;
  size_t least_individuals = 20;  // caught on two evenings: with fewer, chance would choose the map
  double scale_spread = 0.25, shift_spread = 0.5;
  double lowest = 0, highest = 0;  // the model's caps
};

struct Refit {
  LlrMap map;
  size_t individuals = 0;  // that have pairs of their own
  int same_pairs = 0, different_pairs = 0, folds = 0;
  double before = 0, after = 0;  // Cllr under cross-validation, in bits
  Interval gain;                 // of before - after
  std::string refused;           // why it should not be used, a sentence; empty when it should
};

// `trial`: run with the shipped calibration.
Refit refit(const Trial& trial, const RefitOptions& options);

// The map alone, from the pairs named.
LlrMap fit_llr_map(const std::vector<Pair>& pairs, double individuals, const RefitOptions& options);

}  // namespace evet::trial
