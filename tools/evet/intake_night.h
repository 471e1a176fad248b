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
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"

namespace evet {

struct IntakeRequest {
  std::filesystem::path sheet, photos;  // the CSV, and the folder that its photo names are relative to
  bool keep_going = false;              // take the good rows though others are bad
  bool move = false;  // captures that the catalogue holds at another night or place go where the sheet says
  int threads = 1;
  Actor actor;
  std::function<void(const char* stage, size_t done, size_t all)> progress;  // may be empty
};

struct RefusedRow {
  size_t line = 0;       // of the sheet
  std::string sentence;  // with line, item, what is wrong and what would be right
};

// A photo that was taken in by this call.
struct TakenPhoto {
  std::string name, capture;  // as on the sheet
  bool usable = false;
  std::vector<QualityNote> notes;
};

// A night on which nothing was caught at a place.
struct EmptyNight {
  std::string night, place;
  bool known = false;  // it was in the catalogue already
};

struct IntakeOutcome {
  bool taken = false;                           // false: bad rows, and nothing was taken
  std::vector<std::string> nights;              // of the captures that could be taken, sorted
  std::vector<std::string> places;              // likewise, "site, pond"
  size_t rows = 0;                              // of the sheet, good and bad
  size_t captures = 0, photos = 0;              // new in the catalogue
  size_t captures_known = 0, photos_known = 0;  // that were there already
  std::vector<EmptyNight> empty_nights;         // in the order of the sheet
  EntryId night_entry;  // what was written of the sheet as a whole; empty when it was there already
  std::vector<TakenPhoto> looked_at;   // the new photos, in the order of the sheet
  std::vector<RefusedRow> refused;     // in the order of the sheet
  std::vector<std::string> on_no_row;  // pictures in the photos folder that neither sheet nor catalogue names
  bool readable = true;                // false: the sheet as a whole is at fault, and no row was looked at
  std::vector<std::string> noticed;    // sentences: the same picture under two names, corrections, clocks
};

// Errors: those of the sheet's file as a whole (not_found, bad_input, too_large); storage when the disk or
// the database fails: what was acknowledged stays.
IntakeOutcome intake_night(Catalogue& catalogue, const IntakeRequest& request, Env& env);

}  // namespace evet
