// What is to be written of a sheet whose photos were read: its rows sorted into known, new and refused,
// capture by capture.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "tools/intake/intake_outcome.h"
#include "tools/intake/intake_photos.h"
#include "tools/intake/sheet.h"

namespace evet {

struct PlannedPhoto {
  size_t row = 0;  // into the sheet's rows
  PhotoId id;
};

// One capture of the sheet, and what is to be written of it.
struct PlannedCapture {
  CaptureFacts facts;
  std::optional<CaptureState> known;  // it is in the catalogue already
  std::vector<PlannedPhoto> fresh;    // photos that are not
  bool says_released = false;         // whether the sheet says that it was or was not
};

struct IntakePlan {
  std::vector<PlannedCapture> captures;  // in the order of the sheet, without those that lost all their rows
  std::vector<NoCatch> no_catches;       // likewise, without those that the catalogue contradicts
  std::vector<SheetProblem> refused;     // with the sheet's own problems, by line
  std::vector<Message> noticed;
  size_t rows = 0;                              // of the sheet, good and bad
  size_t captures_known = 0, photos_known = 0;  // that are in the catalogue already
};

// `reads`: of the sheet's rows, in their order; `move`: captures that the catalogue holds at another night or
// place go where the sheet says, else their rows are refused.
IntakePlan plan_night(Catalogue& catalogue, const Sheet& sheet, const std::vector<ReadPhoto>& reads,
                      bool move);

}  // namespace evet
