// The version of a night's report that may be passed on to anybody.
#pragma once
#include "tools/report/night_report.h"

namespace evet {

// Leaves out what names or could give away the place or a person: site, pond, coordinates, the catalogue's title,
// the sheet's name, traps, the names of captures and photos (they are numbered), licence and holder, notes and every
// sentence that people wrote. What remains of free words is searched for the names of site and pond, and these are
// blanked. Figures stay as they are.
NightReport for_everybody(NightReport report);

}  // namespace evet
