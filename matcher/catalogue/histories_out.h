// From who is who to capture histories: the identities' way into the estimators.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "matcher/catalogue/fold.h"
#include "models/capture_histories.h"

namespace evet {

// A night that was worked, whether or not anything was caught: the sheets know only of captures.
struct NightWorked {
  std::string night;             // "2031-05-14"
  std::optional<double> effort;  // in whatever unit the survey counts: trap nights, metres torched, hours
};

struct HistoriesRequest {
  std::string site, pond;           // empty: all
  std::string from, to;             // first and last night, "2031-05-14"; empty: unbounded
  std::vector<NightWorked> worked;  // empty: the nights with captures, effort unknown
};

struct HistoriesMade {
  models::CaptureHistories histories;  // may hold no animal at all
  size_t captures = 0;                 // that the request covers, settled or not
  size_t unsettled = 0;                // of these, left out because nobody knows yet who they are
  size_t disputed = 0;                 // of these, counted as the verdicts in force have it, and in dispute
  size_t by_program = 0;  // of these, where they are because the program was sure; no person has looked
};

// One row an individual, one column a night; several captures of a night count once. Groups "sex" and, where
// several occur, "site" (of the first capture); covariate "svl_mm" (of the first capture that has one).
HistoriesMade histories_of(const Identities& identities, const HistoriesRequest& request = {});

}  // namespace evet
