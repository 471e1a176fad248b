// Limits of an estimate that is averaged over models.
//
// Each model's interval says where the truth may lie if that model holds; its limits are read as points of a
// distribution, and the averaged limits leave half of what is left over on each side of the mixture of these
// distributions, weighed as the models are (model-averaged tail areas: Turek & Fletcher 2012, Comput. Stat.
// Data Anal. 56:2809-2815; with profiles Fletcher & Turek 2011, J. Agric. Biol. Environ. Stat. 17:38-51; both
// from memory). A model with little weight and hardly any information widens them by its share only, and one
// whose estimate lies at the end of its range comes in with its limits and not with a standard error of 0.
#pragma once
#include <vector>

#include "models/base/estimate_value.h"

namespace evet::models {

enum class Range {
  above,        // numbers: from `floor` on
  positive,     // rates
  from_0_to_1,  // chances
};
struct WeighedLimits {
  double weight = 0;  // of all, summing to 1
  double value = 0, lower = 0, upper = 0;
};

// All intervals must be of the one level. An infinite upper limit comes out where models
// without one weigh enough.
Interval averaged_limits(const std::vector<WeighedLimits>& models, Range range, double floor, double level);

}  // namespace evet::models
