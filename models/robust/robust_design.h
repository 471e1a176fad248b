// The robust design: closed sampling within primary periods, survival and temporary emigration between them.
//
// Pollock (1982), J. Wildl. Manage. 46:752-757; Kendall, Nichols & Hines (1997), Ecology 78:563-578. The
// likelihood is the open part on captures by period, given release and presence, times the closed part given
// capture in the period.
#pragma once
#include <vector>

#include "models/fit/fitted_model.h"
#include "models/open/m_array.h"

namespace evet::models {

enum class Emigration {
  none,
  random,  // absent with the same chance whether present before or not
  markov,  // the chance depends on having been present or absent in the period before
};

struct RobustTerms {
  Emigration emigration = Emigration::none;
  bool survival_by_period = false;
  bool emigration_by_period = false;  // random emigration only
  bool capture_by_period = false;
  bool capture_by_occasion = false;  // every secondary occasion its own
};

// For each period: animals caught, and for each of its occasions the captures and the animal-occasions they
// come from (animals of that period still there to be caught).
struct RobustCounts {
  MArray periods;
  CaptureHistories by_period;  // caught at all in each period
  std::vector<std::vector<double>> captures, exposed;
};

// Needs two periods; the histories must name their primary periods.
RobustCounts robust_counts(const CaptureHistories& histories);

// Estimates: survival, capture, emigration ("absent" for random; "leaving" and "staying away" for Markov), "N
// i" present in each period with its standard error given presence. Sample size for AICc: releases by period
// plus captures within.
FittedModel fit_robust(const RobustCounts& counts, const RobustTerms& terms,
                       const ModelOptions& options = {});

// The same by groups. `capture` varies by night, with covariates of nights, or with capture_by_period by period and
// then without any; `survival` by period ("occasion" of the terms) with the means of covariates over a period's
// nights. Neither takes covariates of animals. Numbers and their mean growth also for each level of each group
// that the terms or `numbers_by` name.
struct RobustChoice {
  Emigration emigration = Emigration::none;
  bool emigration_by_period = false;  // random emigration only
  Terms survival, capture;
  bool capture_by_period = false;
  std::vector<std::string> numbers_by = {};
};
FittedModel fit_robust(const CaptureHistories& histories, const RobustChoice& choice,
                       const ModelOptions& options = {});

// Each period alone, constant capture probability given capture: N = n / p*. And survival from the
// Jolly-Seber estimates of the captures by period (the two-level approach of Pollock 1982).
std::vector<Estimate> closed_by_period(const RobustCounts& counts, double level = 0.95);

// Chances that an animal caught in period i is next caught in j (0-based, j > i) for constant parameters;
// last column: never.
Eigen::MatrixXd robust_cells(int periods, double survival, double p_star, double leaving,
                             double staying_away);

}  // namespace evet::models
