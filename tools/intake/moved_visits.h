// Nights and places that are left without a capture when captures are moved to another night or place,
// because the sheet that first brought them was wrong. Left as they are they would stand as nights on which
// nothing was caught, and count as occasions in every estimate.
#pragma once
#include <map>
#include <set>
#include <vector>

#include "matcher/catalogue/catalogue.h"

namespace evet {

// What is to be written so that no intake in force speaks of those of `left` at which the catalogue holds no
// capture but those that are `moving` away: each such intake is taken back, and stands anew without them
// where anything of it remains.
std::vector<Body> without_visits(Catalogue& catalogue, const std::set<NightIntake::Visit>& left,
                                 const std::set<CaptureId>& moving);

// What was written down of such a place and night (method, effort, weather) goes with its captures, where they all
// went to one: `went` has for each where. What is written down there already stays.
std::vector<Body> facts_that_follow(Catalogue& catalogue,
                                    const std::map<NightIntake::Visit, std::set<NightIntake::Visit>>& went,
                                    const std::set<CaptureId>& moving);

// What is to be written where all that was said of one place and night is of another: its captures go there with their
// verdicts, what was done goes with them, and a night without a catch is one there. Coordinates stay behind where the
// place changes. Errors: not_found where nothing was worked then and there; bad_input where nothing would change.
std::vector<Body> moved_visit(Catalogue& catalogue, const NightIntake::Visit& from,
                              const NightIntake::Visit& to, const std::string& reason);

}  // namespace evet
