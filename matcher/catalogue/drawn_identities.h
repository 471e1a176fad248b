// Who is who, drawn from what the program thought possible: for estimates that carry the
// doubt about identities.
//
// Drawn is every capture that the program alone has placed, from the probabilities that its verdict kept, and
// every unsettled capture whose ranking is given. What people said and what sheets know stands in every draw;
// people's own errors are therefore not in it (agreement.h measures those).
#pragma once
#include <random>
#include <span>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "matcher/search/rank.h"

namespace evet {

struct Doubt {
  CaptureId capture;
  EntryId verdict{};  // the program's, in force; empty: the capture is unsettled
  Evidence evidence;  // candidates and "new", with probabilities
  // Of an unsettled capture: captures of its night that may show the same animal, one new to the catalogue.
  std::vector<NightMatch> night_matches = {};
};

// The captures that the program alone has placed; without evidence, which is read apart so that nobody waits
// long for the catalogue.
std::vector<Doubt> placed_by_program(const Statements& said, const Identities& who);
// Reads it from the ledger. Whose verdict kept no probabilities is as certain as its
// verdict says: it has none.
void read_evidence(const Catalogue& catalogue, std::span<Doubt> doubts);

// Takes out of the evidence whom people have since said to be different: in no draw is it the same.
void bind_to(std::span<Doubt> doubts, const Statements& said, const Identities& who);

// `said`, with one answer drawn for each doubt. The same for the same state of `random`.
Statements drawn(const Statements& said, const std::vector<Doubt>& doubts, std::mt19937_64& random);

}  // namespace evet
