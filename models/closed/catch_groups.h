// A fitted closed model told as groups of animals with their chances of capture: what residuals and the
// bootstrap need, whatever the model.
#pragma once
#include <vector>

#include "models/fit/fitted_model.h"
#include "models/simulate/simulate.h"

namespace evet::models {

// Chances of first capture and of capture again on each occasion, for a share of the animals.
struct CatchGroup {
  double share = 1;
  std::vector<double> p, again;
};

// One group, two for mixtures, sixty steps of equal weight for the beta-binomial; empty for a model without
// full likelihood.
std::vector<CatchGroup> catch_groups(const FittedModel& model, int occasions);

// Histories of so many animals, each of a group drawn by its share.
CaptureHistories draw_histories(const std::vector<CatchGroup>& groups, int animals, const Uniform& uniform);

// Expected figures for n animals when none is lost on capture.
struct CatchExpectation {
  std::vector<double> newly, caught;  // by occasion
  std::vector<double> frequencies;    // f_1 ... f_t
};
CatchExpectation expected_catches(const std::vector<CatchGroup>& groups, double n);

}  // namespace evet::models
