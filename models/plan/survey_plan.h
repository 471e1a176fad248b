// How many nights, and how many traps, a wanted precision takes: surveys of an assumed pond are drawn, and each is
// estimated as a real one would be.
//
// For each number of nights and of traps: `draws` surveys of `animals` animals, each caught on a night with the chance
// that so many traps give, estimated under "constant" (M0) where animals are alike, under "mixture" (Mh of two groups)
// where they differ. What is told of them is what a surveyor can hold to: how far the estimate lies from the truth,
// how often the interval holds it, how often there is no estimate at all. It says nothing of closure: nights so far
// apart that animals come and go estimate something else.
//
// Chance and traps: each trap catches by itself, so that 1 - chance is a power of the number of traps; Seber (1982), The
// Estimation of Animal Abundance, section 7.1 (from memory). Large-sample error: Darroch (1958), Biometrika 45:343-359.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "models/base/estimate_value.h"

namespace evet::models {

struct PlanRequest {
  double animals = 100;  // that there may be, 5 to 10,000
  double chance = 0.2;   // of one animal being caught on one night with `traps_now`
  int traps_now = 1;     // what `chance` was met with
  double spread = 0;     // of chances between animals: standard deviation on the logit scale
  std::vector<int> nights = {3, 4, 5, 6, 8, 10};  // 2 to 60 each
  std::vector<int> traps = {};                    // empty: traps_now
  double wanted = 0.2;                            // relative error of the estimate, root mean square
  int draws = 200;                                // surveys for each row, 20 to 10,000
  double level = 0.95;
  std::uint64_t seed = 1;
  void check() const;  // throws InputError naming the field
};

struct PlanRow {
  int nights = 0, traps = 0;
  double chance = 0;          // of one animal on one night
  double captures = 0;        // mean
  double seen = 0;            // mean share of the animals that is ever caught
  double relative_error = 0;  // root mean square of estimate/animals - 1, over surveys with an estimate
  double relative_bias = 0;   // mean of the same
  double coverage = 0;        // share of intervals that hold the truth
  double no_estimate = 0;     // share of surveys without a finite estimate
  double large_sample = kUndefined;  // relative standard error by Darroch, where animals are alike
  bool reaches = false;              // the wanted error, with an estimate in 95 of 100 surveys
};

struct SurveyPlan {
  std::vector<PlanRow> rows;          // by traps, then nights
  std::optional<std::size_t> enough;  // the first of the rows that reach it, by trap nights, then nights
  Remark says;                        // what it comes to, in a sentence
  Sentences assumptions;
  std::string source;
};

// The same request, the same plan, at any number of threads. Errors: those of check().
SurveyPlan plan_survey(const PlanRequest& request, int threads = 1);
double chance_with(double chance, int traps_now, int traps);

// Relative error against nights, a line for each number of traps, with the wanted one. A whole SVG document.
std::string plan_chart(const SurveyPlan& plan, const PlanRequest& request);

}  // namespace evet::models
