// What the page shows, as JSON; one file a view. Read-only: nothing here writes to the ledger.
#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "tools/review/desk.h"

namespace evet::review {

// {"title", "program", "reader", "write_key", "position", "nights": [{"night", "captures", "unsettled"}],
//  "disputes", "warnings", "cautions"}
nlohmann::json hello_view(Call& call);
nlohmann::json cautions();  // at the foot of every page

// {"night", "places", "glance", "queue", "settled", "unusable", "ranking", "undo", "redo", "position"}.
// glance: caught_again + new + to_look + unusable = captures; photos; of_these_sure (part of to_look).
nlohmann::json night_view(Call& call);

// {"capture", "name", "night", "photos", "candidates", "new_probability", "advice", "generation", "mine",
//  "facts"}: facts only once this reader has judged the capture, or asked for it by a verdict.
nlohmann::json capture_view(Call& call);

// ?capture=, ?other=, ?answer= or ?as=: what speaks against saying so, before it is said: {"objections":
// [{"code", "sentence", "capture", "beside", "names": [NAME, NAME], "photos": [PHOTO...]}]}.
nlohmann::json objections_view(Call& call);

// ?find=: captures by name, night or individual, to hold any two together: {"captures": [{"capture", "name",
// "night", "individual", "strip"}], "found"}.
nlohmann::json captures_view(Call& call);

// ?points=x,y;x,y;...&capture=: the strip along a midline that is not saved yet: {"strip": base64 of a JPEG or
// null, "usable", "notes", "objections"}.
Response strip_along(Call& call);

// A queue without a word on why: {"left", "item": null | {"capture", "photos", "read", "candidate"}}.
// The candidate is there once the reader has judged the capture's photos.
nlohmann::json second_view(Call& call);

// Readers against each other and against planted answers: {"cases", "agreed", "readings", "not_independent",
// "fleiss": null | KAPPA, "pairs": [{"first", "second", "cases", "cohen": null | KAPPA}], "errors": [...]}; a
// KAPPA is {"kappa", "observed", "chance", "low", "high"}.
nlohmann::json agreement_view(Call& call);

nlohmann::json disputes_view(Call& call);
nlohmann::json individuals_view(Call& call);  // ?find=, ?from=: one screen at a time
nlohmann::json individual_view(Call& call);
nlohmann::json population_view(Call& call);  // ?site=, ?pond=, ?from=, ?to=
Response estimates(Call& call);              // likewise; models::to_json of the report
Response plan_view(Call& call);              // likewise; see tools/numbers/planned_survey.h
Response estimates_in_doubt(Call& call);     // likewise; models/identity/estimate_in_doubt.h as JSON
nlohmann::json ledger_view(Call& call);      // filters: ledger_asked.h
Response ledger_export(Call& call);          // likewise, as CSV
// ?site=, ?pond=: what is written down of the night (the newest where none is named), field by field.
nlohmann::json report_view(Call& call);
Response report_page(Call& call);  // ?site=, ?pond=, ?for=authority|everybody, ?save=yes: HTML to print
nlohmann::json calendar_view(Call& call);
nlohmann::json map_view(Call& call);     // exact on this machine alone
Response catalogue_list(Call& call);     // individuals by likeness of their patterns, as JSON
Response catalogue_page(Call& call);     // the same as HTML to print
nlohmann::json growth_view(Call& call);  // ?site=, ?pond=: lengths of individuals measured more than once
nlohmann::json settings_view(Call& call);

Response evening_view(Call& call);   // what Evening::json() says
Response evening_sheet(Call& call);  // the sheet as CSV, to keep
Response evening_thumb(Call& call);  // of a photo that is not in the catalogue yet
Response evening_photo(Call& call);

// What "undo" and "redo" would do now for this reader: {"undo": null | {"target", "sentence", "capture"},
// "redo": likewise}. Part of night and capture.
nlohmann::json steps_back(Catalogue& catalogue, const std::string& reader);

}  // namespace evet::review
