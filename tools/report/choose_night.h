// Which place and night somebody means.
#pragma once
#include <string>

#include "matcher/catalogue/known_nights.h"

namespace evet {

struct VisitWanted {
  std::string night;       // empty: the newest
  std::string site, pond;  // empty: the only place of that night
};

// Among the places and nights that were worked, whether or not anything was caught. Errors: not_found where the
// catalogue has none of it; usage where the night has several places and none of them is named.
NightIntake::Visit choose_visit(Catalogue& catalogue, const VisitWanted& wanted);

}  // namespace evet
