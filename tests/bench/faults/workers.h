// The work shared by processes, and their rows put together.
#pragma once
#include <functional>
#include <vector>

#include "tests/bench/faults/row.h"

namespace evet::faults {

// Each process does `work` with a part of its own. One that ends early is a wrong row.
std::vector<Row> in_processes(const Part& part, const std::function<std::vector<Row>(const Part&)>& work);

}  // namespace evet::faults
