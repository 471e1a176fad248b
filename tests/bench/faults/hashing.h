// What is hashed and signed while memory runs out.
#pragma once
#include "tests/bench/faults/row.h"

namespace evet::faults {

// The n-th allocation fails, for every n: the answer is the true one or an error, never another.
Row hashing_without_memory();

}  // namespace evet::faults
