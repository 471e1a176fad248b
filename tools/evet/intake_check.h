// The first pass of an intake: which rows can be taken, what is in the catalogue already, what is new.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "tools/evet/intake_night.h"
#include "tools/evet/sheet.h"

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
  Sheet sheet;
  std::string sheet_sha256;
  std::vector<PlannedCapture> captures;  // in the order of the sheet, without those that lost all their rows
  std::vector<NoCatch> no_catches;       // likewise, without those that the catalogue contradicts
};

// Fills the outcome's refused rows, notices and counts of what is known.
IntakePlan check_night(Catalogue& catalogue, const IntakeRequest& request, Env& env, IntakeOutcome& outcome);

}  // namespace evet
