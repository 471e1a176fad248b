// Estimates and their intervals, drawn on one scale.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "models/base/estimate_value.h"

namespace evet::report {

// One row an estimate: its name, a bar from the lower to the upper limit of its first interval, a dot at the
// value. An unbounded side runs off with an arrow. Empty when no estimate has a finite value
// and a lower limit.
std::string interval_plot(const std::vector<std::pair<std::string, const models::Estimate*>>& rows);

}  // namespace evet::report
