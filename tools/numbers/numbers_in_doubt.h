// Figures from a catalogue, once as if every identity were certain and once with the program's doubt about
// identities carried through: drawn, folded, estimated, combined (models/identity/estimate_in_doubt.h).
#pragma once
#include <vector>

#include "matcher/catalogue/drawn_identities.h"
#include "matcher/catalogue/histories.h"
#include "models/identity/estimate_in_doubt.h"

namespace evet {

// Captures in doubt take part by what was drawn for them, the unsettled ones among them too, which the
// certain figure leaves out: it stops before their night. The same for the same input. Errors: as
// capture_histories(), where not even a draw has a history; models::InputError as estimate().
models::EstimateInDoubt numbers_of(const Statements& said, const Identities& who,
                                   const std::vector<Doubt>& doubts, const HistoriesOptions& where,
                                   const models::EstimateRequest& request = {});

// The first night at a place with captures that can still be settled; empty where there is none.
std::string first_open_night(const Identities& who, const HistoriesOptions& where);

// Everything that the program alone knows of the captures at a place: its verdicts in force, and a ranking of
// each capture of every open night (open_nights.h).
std::vector<Doubt> doubts_of(Catalogue& catalogue, const Statements& said, const Identities& who,
                             const HistoriesOptions& where, int threads);

}  // namespace evet
