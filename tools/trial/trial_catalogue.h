// What a catalogue knows for certain, as captures with known answers.
//
// The truth is what people said and what the sheet knows: the ledger is folded anew without the program's own
// verdicts, disputed captures are left out, and so are captures that nobody has settled. A capture that a
// person called new counts as an animal of its own; if two such are one animal that nobody noticed, the trial
// counts a right candidate as a false one, so it names the strongest of them.
#pragma once
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "tools/trial/trial_run.h"

namespace evet::trial {

struct KnownSet {
  std::vector<KnownCapture> captures;                // of individuals, by their names; groups filled in
  std::map<std::string, std::string> capture_names;  // by id
  size_t individuals = 0, caught_twice = 0;          // on two evenings, with a usable photo on each
  size_t captures_in_catalogue = 0, without_usable_photo = 0;
  size_t by_program = 0;  // placed by the program alone: no truth
  size_t disputed = 0, unsettled = 0;
};

// Reads patterns on `threads` threads. Errors: not_found when no identity is confirmed, bad_input when all
// that is confirmed is one individual.
KnownSet known_captures(Catalogue& catalogue, int threads,
                        const std::function<void(size_t done, size_t all)>& progress = {});

}  // namespace evet::trial
