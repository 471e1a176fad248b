// Who is who, drawn from what the program thought possible: for estimates that carry the doubt about
// identities.
//
// Drawn is every capture that the program alone has placed, from the probabilities that its verdict kept, and
// every unsettled capture whose ranking is given. What people said and what sheets know stands in every draw;
// people's own errors are therefore not in it (agreement.h measures those).
#pragma once
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "models/base/random.h"

namespace evet {

struct Doubt {
  CaptureId capture;
  EntryId verdict{};  // the program's, in force; empty: the capture is unsettled
  Evidence evidence;  // candidates and "new", with probabilities
};

// The captures that the program alone has placed. One whose verdict kept no probabilities is not among them.
std::vector<Doubt> doubts_of(Catalogue& catalogue);

// `said`, with one answer drawn for each doubt. The same for the same state of `random`.
Statements drawn(const Statements& said, const std::vector<Doubt>& doubts, models::Random& random);

}  // namespace evet
