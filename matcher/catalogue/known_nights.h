// Which nights were worked where, and what is known of each beside its captures.
#pragma once
#include <vector>

#include "matcher/catalogue/catalogue.h"

namespace evet {

// The places and nights that sheets in force say were worked, and those of captures: by night, then place.
std::vector<NightIntake::Visit> visits_of(Catalogue& catalogue);

// What every entry in force says of that place and night, later over earlier.
NightFacts night_facts_of(Catalogue& catalogue, const NightIntake::Visit& visit);

}  // namespace evet
