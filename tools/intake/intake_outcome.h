// What an intake is asked to do, and what came of it.
#pragma once
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "tools/intake/sheet.h"

namespace evet {

struct IntakeRequest {
  std::filesystem::path sheet, photos;  // the CSV, and the folder that its photo names are relative to
  bool keep_going = false;              // take the good rows though others are bad
  bool move = false;  // captures that the catalogue holds at another night or place go where the sheet says
  std::string
      in_spite;  // why a new place is right although it is spelt nearly as a known one; empty: it is not
  std::vector<Objection> in_spite_of{};  // filled in on the way: what that reason overrules
  int threads = 1;
  Actor actor;
  std::function<void(const std::string& stage, size_t done, size_t all)> progress;  // may be empty
};

// One sentence for all rows that have the same fault: "lines 2 to 301, licence: is empty; write ... (300 rows)".
std::vector<std::string> refused_sentences(const std::vector<SheetProblem>& refused);

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
  size_t moved = 0;                             // of these, captures that went to another night or place
  std::vector<EmptyNight> empty_nights;         // in the order of the sheet
  EntryId night_entry;  // what was written of the sheet as a whole; empty when it was there already
  std::vector<TakenPhoto> looked_at;   // the new photos, in the order of the sheet
  std::vector<SheetProblem> refused;   // in the order of the sheet
  std::vector<std::string> on_no_row;  // pictures in the photos folder that neither sheet nor catalogue names
  bool readable = true;                // false: the sheet as a whole is at fault, and no row was looked at
  std::vector<Message> noticed;        // the same picture under two names, corrections, clocks
};

}  // namespace evet
