// What the program knows of captures that nobody has settled, night after night.
//
// Each night is ranked as the ledger would stand if the nights before it were settled as the program advises: its
// captures are compared with the known animals and with those of the earlier open nights, too. What is drawn for a
// later capture then follows what was drawn for the earlier one that it looks like.
#pragma once
#include <string>
#include <vector>

#include "matcher/catalogue/drawn_identities.h"
#include "matcher/catalogue/histories.h"

namespace evet {

// Nights at a place with captures that can still be settled, oldest first.
std::vector<std::string> open_nights(const Identities& who, const HistoriesOptions& where);

// A ranking for each capture of these nights, in their order. Takes as long as 'evet rank' on all of them.
std::vector<Doubt> doubts_of_open_nights(Catalogue& catalogue, const Statements& said, const Identities& who,
                                         const std::vector<std::string>& nights, int threads);

}  // namespace evet
