// What of a catalogue leaves the house, as plain values: places told coarsely unless they are asked for exactly, and
// no word that a person wrote.
//
// Sites and ponds have names that give them away, so a place is a code: a hash of its names, salted with something that
// stays in the catalogue, so that it cannot be guessed from a list of ponds. Observers, licences, traps, file names,
// labels and notes stay behind. With `exact` coordinates go along, and nothing else more.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "matcher/catalogue/known_nights.h"
#include "models/capture_histories.h"
#include "tools/words/coarse_place.h"

namespace evet {

struct ShareRequest {
  std::string species{};       // scientific name
  bool exact = false;          // exact coordinates: for who may have them
  std::string site{}, pond{};  // empty: all
  std::string from{}, to{};    // nights, inclusive; empty: all
  // Errors: usage, for a species that is missing or no name, or a date that is none.
  void check() const;
};

struct SharedPosition {
  double latitude = 0, longitude = 0;
  std::optional<double> uncertainty_m;  // absent: as the sheet has it
};

struct SharedNight {
  std::string event, place, night;  // codes; the date on which it began
  std::size_t captures = 0, open = 0;
  NightFacts facts;  // method, effort and its unit, weather, temperatures are shared, no other
  std::optional<SharedPosition> position;
};

struct SharedCapture {
  CaptureId id;
  std::string event, place, night;
  std::optional<IndividualId> individual;  // absent: not settled, or in dispute
  std::string sex, stage;                  // empty: not known
  std::optional<double> svl_mm, total_mm, mass_g;
  bool lost = false;
  std::optional<SharedPosition> position;
};

struct SharedRecords {
  std::string title;  // of the catalogue; empty unless exact: it is often the site's name
  std::string species, ledger_head, made_at;
  bool exact = false;
  std::vector<SharedNight> nights;      // by night, then place
  std::vector<SharedCapture> captures;  // likewise, then by id
  models::CaptureHistories histories;   // animals by identifier
};

// Errors: those of check(); not_found where nothing is left of what was asked for.
SharedRecords shared_records(Catalogue& catalogue, const ShareRequest& request, Env& env);

}  // namespace evet
