// How sure an estimate is, also at the end of its range.
#pragma once
#include <algorithm>
#include <cmath>

#include "models/base/estimate_value.h"

namespace evet::models {

// The standard error; where it is 0, at the end of a range, what the wider side of the
// interval stands for instead.
inline double effective_error(const Estimate& estimate) {
  if (estimate.standard_error > 0 || estimate.intervals.empty()) return estimate.standard_error;
  const Interval& interval = estimate.intervals.front();
  const double half = std::max(interval.upper - estimate.value, estimate.value - interval.lower);
  return std::isfinite(half) ? half / normal_point(interval.level) : 0;
}

}  // namespace evet::models
