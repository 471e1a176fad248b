// What an intake writes: captures that moved, new photos examined and their captures, the sheet as a whole.
#pragma once
#include <string>
#include <vector>

#include "tools/intake/intake_outcome.h"
#include "tools/intake/intake_plan.h"
#include "tools/intake/sheet_file.h"

namespace evet {

struct TakenNight {
  size_t captures = 0, photos = 0;       // new in the catalogue
  size_t moved = 0;                      // captures that went to another night or place
  std::vector<TakenPhoto> looked_at;     // in the order of the sheet
  std::vector<EmptyNight> empty_nights;  // likewise
  std::vector<Message> noticed;          // corrections
  EntryId night_entry;                   // empty when the sheet was there already
};

// A few captures a transaction, each of them whole. Errors: bad_input for a photo
// that changed meanwhile; storage.
TakenNight take_night(Catalogue& catalogue, const IntakeRequest& request, const SheetFile& file,
                      const Sheet& sheet, const IntakePlan& plan);

}  // namespace evet
