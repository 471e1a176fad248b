// Parametric bootstrap: draw data sets from a fitted model, fit each anew, read off spread and percentiles.
//
// Efron & Tibshirani (1993), An Introduction to the Bootstrap, ch. 6 and 13.
#pragma once
#include <cstdint>
#include <functional>

#include "models/base/estimate_value.h"
#include "models/base/random.h"
#include "models/closed/closed_counts.h"
#include "models/fit/fitted_model.h"

namespace evet::models {

struct Bootstrap {
  double mean = 0, standard_error = 0;
  Interval percentile;  // infinite upper limit when that share of the replicates had no finite estimate
  int replicates = 0, usable = 0;
};

// `replicate` draws a data set and returns the estimate from it (not finite where there is none).
Bootstrap bootstrap(const std::function<double(Random&)>& replicate, int replicates, std::uint64_t seed,
                    double level = 0.95);

// Of N under the closed full-likelihood model that was fitted (by its name) to so many occasions. Throws
// InputError for any other model and for one without a finite estimate.
Bootstrap bootstrap_population(const FittedModel& model, int occasions, int replicates, std::uint64_t seed,
                               double level = 0.95);

}  // namespace evet::models
