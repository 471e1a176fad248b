// New places on a sheet that are spelt nearly as known ones: a slip of the key would make a pond that does not exist.
// Command and page ask here, before anything is taken in.
#pragma once
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "tools/intake/intake_plan.h"
#include "tools/words/near_places.h"

namespace evet {

std::vector<NearPlace> near_known_places(Catalogue& catalogue, const IntakePlan& plan);

// The row on which such a place is written first.
SheetProblem refused_for(const NearPlace& near, const Sheet& sheet);

}  // namespace evet
