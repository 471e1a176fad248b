// Acts broken at every place there is.
#pragma once
#include <optional>

#include "tests/bench/faults/acts.h"
#include "tests/bench/faults/machine.h"

namespace evet::faults {

// The n-th allocation, read, write, sync and rename fails, for every n of each act. Where there are more than
// `most` of a kind, evenly spread ones, others for each seed.
// `ended` counts, as none of them wrong, the runs that ended with exit code 4 inside a destructor.
Row every_nth_fault(const Acts& acts, const Part& part, Row& ended, long most = 6000);

// One kind of call of one act, and which of them fail: "rank:allocation:5157" or "rank:allocation:1-6000/7".
struct Nth {
  std::string act;
  Step step = Step::allocation;
  long from = 1, to = 1, stride = 1;
};
std::optional<Nth> nth_of(const std::string& text);
Row these_faults(const Acts& acts, const std::vector<Nth>& wanted, const Part& part, Row& ended);

// The power goes at a change drawn at random, on both kinds of disk.
Row power_cuts_of_acts(const Acts& acts, std::size_t wanted, const Part& part);

}  // namespace evet::faults
