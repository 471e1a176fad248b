// What the catalogue itself says about how scores become advice: its own calibration, learned on its
// confirmed pairs, and the costs of the two errors. Both are ledger entries of kind "calibration".
//
// Of each the latest entry in force counts, "later" by id as everywhere in the fold, so that the same rule
// decides when two catalogues that each had their own are merged, whoever merges into whom. A withdrawal
// takes an entry out and the one before it counts again. A calibration learned with other weights of the
// matching model than the program ships with says nothing about these: it is kept, and not used.
#pragma once
#include <optional>
#include <string>

#include "matcher/catalogue/catalogue.h"
#include "matcher/search/rank.h"

namespace evet {

// The costs of the two errors and of a look; a missed join costs 1.
struct Costs {
  double wrong_join = SearchOptions{}.wrong_join_over_missed;
  double look = SearchOptions{}.look_over_missed;
  friend bool operator==(const Costs&, const Costs&) = default;
};

// What a refit learned, and from how much.
struct OwnCalibration {
  LlrMap map;
  std::string model;  // matching_model_id() of the weights that it was learned on
  std::int64_t individuals = 0, same_pairs = 0, different_pairs = 0;
  double cllr_before = 0, cllr_after = 0;  // under cross-validation by individual
};

struct SaidBy {
  EntryId entry;
  std::string time;
  Actor actor;
};
struct CalibrationInForce {
  std::optional<OwnCalibration> calibration;
  SaidBy calibration_by;
  bool of_other_weights = false;  // the latest was learned on others, and is not used
  std::optional<Costs> costs;
  SaidBy costs_by;
};

CalibrationInForce calibration_in_force(Catalogue& catalogue);

// The options under which the catalogue's captures are ranked: its own calibration and
// costs, else the shipped.
SearchOptions search_options_of(Catalogue& catalogue);

// For the ledger.
Calibration entry_of(const OwnCalibration& own);
Calibration entry_of(const Costs& costs);

// Stands for the weights built into the program that a likelihood ratio depends on once the strip is cut.
const std::string& matching_model_id();

}  // namespace evet
