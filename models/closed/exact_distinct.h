// Exact limits for the number of animals from how many different ones were seen, given the catches.
//
// With all animals alike on each occasion, the animals of a catch are a random sample of the population; the
// number of different animals after all catches then has a known distribution (Darroch 1958, Biometrika
// 45:343-359; for two samples it is the hypergeometric one). Used where other methods claim certainty: every
// animal seen again and again leaves no spread for a standard error, and yet another may have been missed.
#pragma once
#include <vector>

#include "models/base/estimate_value.h"

namespace evet::models {

// Chances that no more, and that no fewer, than `distinct` different animals are seen in catches of these
// sizes out of `number`, which is at least as large as any catch.
struct DistinctTails {
  double at_most = 0, at_least = 0;
};
DistinctTails distinct_tails(const std::vector<double>& catches, double distinct, double number);

// Every whole number that a two-sided exact test at 1 - level does not reject. Unbounded where no animal was
// caught twice. For up to a few thousand animals: work grows with their square.
Interval exact_distinct_interval(const std::vector<double>& catches, double distinct, double level);

// The limits of an estimate that claims certainty are replaced by exact ones; others are left as they are.
void widen_if_certain(Estimate& estimate, const std::vector<double>& catches, double distinct, double level);

}  // namespace evet::models
