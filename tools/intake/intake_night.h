// A night taken in: the sheet and its photos become captures and photos in the ledger.
//
// In two passes. The check reads every photo and names every bad row, and unless the good ones are asked for
// all the same, a bad row means that nothing is taken. Then photos are examined and written down, a few
// captures a transaction, each capture whole; so after a kill, a power cut or a full disk the same call
// carries on where it stopped, and a sheet that is taken in already adds nothing.
//
// What is there already is known by the photos' bytes, not by their names. A sheet that was mended and is
// taken in again makes corrections; what it leaves blank stays as it was. Night and place are corrected only
// when that is asked for: else a picture that comes again at another night is a mistake to be named.
#pragma once
#include <chrono>

#include "tools/intake/intake_outcome.h"

namespace evet {

// By the wall clock: nights after it have not happened yet.
std::chrono::year_month_day today(Env& env);
std::string today_text(Env& env);  // "2024-05-14"

// Errors: those of the sheet's file as a whole (not_found, bad_input, too_large); storage when the disk or
// the database fails: what was acknowledged stays.
IntakeOutcome intake_night(Catalogue& catalogue, const IntakeRequest& request, Env& env);

}  // namespace evet
