// Unequal catchability without a likelihood: jackknife, lower bounds, sample coverage.
//
// All work on the capture frequencies f_1 ... f_t; animals lost on capture blur them, which the warnings say.
#pragma once
#include "models/base/estimate_value.h"
#include "models/closed/closed_counts.h"

namespace evet::models {

struct Jackknife {
  std::vector<double> n, standard_error;  // orders 1, 2, ... (at most 5 and t - 1)
  std::vector<double> test, p_value;      // of order k + 1 against k
  int selected = 1;                       // the least order whose successor adds nothing at 5 %
  double n_interpolated = 0, se_interpolated = 0;
};

// Burnham & Overton (1978), Biometrika 65:625-633; (1979), Ecology 60:927-936. Needs two
// occasions and one animal.
Jackknife jackknife_orders(const ClosedCounts& counts);
Estimate jackknife(const ClosedCounts& counts, double level = 0.95);

// Lower bounds. Chao (1987), Biometrics 43:783-791: S + f1^2 / (2 f2), infinite when f2 = 0 < f1; for t
// occasions and with bias correction, Chao (1989), Biometrics 45:427-438.
Estimate chao_1987(const ClosedCounts& counts, double level = 0.95);
Estimate chao_occasions(const ClosedCounts& counts, double level = 0.95);
Estimate chao_bias_corrected(const ClosedCounts& counts, double level = 0.95);

// Chao, Lee & Jeng (1992), Biometrics 48:201-216; which = 1, 2 or 3 says how far the coverage is corrected.
// With `by_occasion` the catchability may differ between occasions too (Mth). Standard error by the delta
// method. Details: coverage, seen_over_coverage, gamma2.
Estimate sample_coverage(const ClosedCounts& counts, int which, bool by_occasion, double level = 0.95);

}  // namespace evet::models
