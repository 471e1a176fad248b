// From who is who to capture histories: animals by nights, for the estimators of models/.
//
// Occasions are the nights on which something was caught at the chosen place, and the nights that a night
// intake in force names for it although nothing was caught (a night without a catch is data). An animal
// caught twice in one night counts once. A capture that belongs to no individual is left out, never guessed;
// what was left out, and what rests on shaky ground, is named in the report beside the histories. A night
// with captures that can still be settled is marked (`unsettled` in the histories), for it is no night on
// which the rest was not caught. A capture that no photo can settle is a capture missed: the night stands
// without it.
//
// The individual's groups and covariates are those of its first capture in the window ("sex": of all its
// captures; a level is "unknown" where nothing was noted, and what nobody noted of any animal is left out),
// so that they do not depend on later catches.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "matcher/base/ids.h"
#include "matcher/catalogue/fold.h"
#include "models/capture_histories.h"

namespace evet {

struct HistoriesOptions {
  std::string site{};                 // only this site; empty: all, told apart by the group "site"
  std::string pond{};                 // only this pond of the site; empty: all
  std::string from{}, to{};           // first and last night, both inside; empty: no bound
  std::vector<std::string> stages{};  // only captures of these stages ("adult", ...); empty: all
  bool use_disputed = true;           // false: captures under dispute are left out
  // Nights that were worked, with the effort in whatever unit the survey counts (trap nights, hours):
  // occasions, and their covariate "effort" when it is known of every occasion.
  std::map<std::string, double> effort{};
  // Nights more than so many days apart begin a new primary period (robust design); 0: no periods are formed.
  int period_gap_days = 0;
  // Tell the pond of each capture as well, for movement between ponds; left out where a capture has none, or all
  // have the same.
  bool places = false;
  void check() const;  // throws Error{bad_input} naming the option
};

// A capture that the reader of an estimate should know of.
struct NotedCapture {
  CaptureId capture;
  std::string night, name;  // as on the sheet
  bool used = false;        // whether it stands in the histories all the same
  bool usable = true;       // at least one of its photos can be matched
  bool disputed = false;
};

struct HistoriesReport {
  int captures = 0;                     // at the chosen place, nights and stages
  int used = 0;                         // of those, in the histories
  std::vector<NotedCapture> unsettled;  // belong to no individual yet: left out
  std::vector<NotedCapture>
      not_identifiable;                   // caught, and closed as such: left out, and waited for no longer
  std::vector<NotedCapture> no_capture;   // closed as none: no animal, or one that counts as another capture
  std::vector<NotedCapture> disputed;     // verdicts about them contradict each other
  std::vector<NotedCapture> by_program;   // placed by the program alone; no person has looked
  int same_night = 0;                     // catches of an animal already caught that night: counted once
  std::vector<std::string> empty_nights;  // occasions on which nothing was caught
  std::vector<std::string> open_nights;   // occasions with captures that can still be settled
  std::vector<IndividualId> at_several_places;  // their group "site" or "pond" is that of the first capture
  std::vector<IndividualId> seen_after_loss;    // noted as not released, and caught later: not counted lost
};

struct CatalogueHistories {
  models::CaptureHistories histories;     // animals by first capture; labels are the individuals' names
  std::vector<IndividualId> individuals;  // of each animal
  HistoriesReport report;
};

// `identities` must be the fold of `statements`. Errors: bad_input when no night is left,
// naming what there is.
CatalogueHistories capture_histories(const Statements& statements, const Identities& identities,
                                     const HistoriesOptions& options = {});

}  // namespace evet
