// Acts broken at every place there is.
#pragma once
#include "tests/bench/faults/acts.h"

namespace evet::faults {

// The n-th allocation, read, write, sync and rename fails, for every n of each act. Where there are more than
// `most` of a kind, evenly spread ones, others for each seed.
// `ended` counts, as none of them wrong, the runs that ended with exit code 4 inside a destructor.
Row every_nth_fault(const Acts& acts, const Part& part, Row& ended, long most = 6000);

// The power goes at a change drawn at random, on both kinds of disk.
Row power_cuts_of_acts(const Acts& acts, std::size_t wanted, const Part& part);

}  // namespace evet::faults
