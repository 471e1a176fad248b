// Two samples of one closed population: the ratio estimators and the exact interval behind them.
#pragma once
#include "models/base/estimate_value.h"
#include "models/capture_histories.h"

namespace evet::models {

// M marked and released in the first sample, C caught in the second, R of these marked. R <= M, R <= C.
struct TwoSampleCounts {
  double marked = 0;
  double caught = 0;
  double recaptured = 0;
};

// Needs exactly two occasions; animals lost at the first are left out of the marked.
TwoSampleCounts two_sample_counts(const CaptureHistories& histories);

// N = M C / R; variance M^2 C (C - R) / R^3. Petersen (1896), Lincoln (1930). Infinite when R = 0 and both
// samples hold animals; undefined when the second sample is empty.
Estimate lincoln_petersen(const TwoSampleCounts& counts, double level = 0.95);
// N = (M + 1)(C + 1)/(R + 1) - 1, Chapman (1951), Univ. Calif. Publ. Stat. 1:131-160, with the variance of
// Seber (1970), Biometrics 26:13-22. Unbiased when M + C >= N.
Estimate chapman(const TwoSampleCounts& counts, double level = 0.95);
// N = M (C + 1)/(R + 1) for a second sample drawn with replacement. Bailey (1951), Biometrika 38:293-306.
Estimate bailey(const TwoSampleCounts& counts, double level = 0.95);

// Every whole N that a two-sided exact hypergeometric test at 1 - level does not reject. The upper limit is
// infinite when nothing was recaptured.
Interval hypergeometric_interval(const TwoSampleCounts& counts, double level = 0.95);

}  // namespace evet::models
