// What a sheet says of its nights beside the captures: method, effort, weather, licence holder; of a night without a
// catch licence and observers too, for which there is no other place. Written on any row of a place and night it holds
// for all of that; `evet night` and the report page write the same.
#pragma once
#include "matcher/catalogue/catalogue.h"
#include "tools/intake/night_columns.h"
#include "tools/intake/sheet.h"

namespace evet {

// Gathers what the rows say into Sheet::nights. A value that cannot be, and two rows of one night that say different
// things, become problems, and that value is left out.
void gather_nights(Sheet& sheet);

// The entries that write it down: nothing of what is known already.
std::vector<Body> facts_said(Catalogue& catalogue, const Sheet& sheet, const std::string& reason);

}  // namespace evet
