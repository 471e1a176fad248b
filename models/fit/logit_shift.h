// A coordinate that is added on the logit scale: the shift of a group or after capture, the slope on a covariate.
#pragma once
#include "models/fit/likelihood.h"

namespace evet::models {

// Bounded where any chance is as good as 0 or 1; from 10 on its size says no more than "all" or "none".
inline Eigen::Index add_logit_shift(Likelihood& likelihood, const Parameter& parameter) {
  const Eigen::Index at = likelihood.add(parameter, Link::identity, 0);
  likelihood.lower[at] = -20;
  likelihood.upper[at] = 20;
  likelihood.low_end[at] = -10;
  likelihood.high_end[at] = 10;
  return at;
}

}  // namespace evet::models
