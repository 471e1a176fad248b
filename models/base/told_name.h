// Names for people: dates instead of bare occasion numbers.
#pragma once
#include <string>
#include <vector>

#include "models/base/parameter.h"

namespace evet::models {

// `moments` are those of EstimateReport. "N, 2031-05-14"; "survival, 2031-05-14 to 2031-06-13"; the plain
// name where an index has no date of its own.
std::string told_name(const Parameter& what, const std::vector<std::string>& moments);
// The time alone: "2031-05-14"; empty where the parameter is the same throughout.
std::string told_time(const Parameter& what, const std::vector<std::string>& moments);

}  // namespace evet::models
