// What is done to a small catalogue: the rows of the table that need no photos.
#pragma once
#include "tests/bench/faults/row.h"

namespace evet::faults {

Row kills(std::size_t wanted, unsigned seed);
Row power_cuts(std::size_t wanted, unsigned seed);
Row failing_writes();  // every change there is
Row merges(std::size_t wanted, unsigned seed);
Row changed_bytes(std::size_t wanted, unsigned seed);
Row hostile_folders(std::size_t wanted, unsigned seed);

}  // namespace evet::faults
