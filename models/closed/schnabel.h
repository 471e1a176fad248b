// Several samples, each animal marked when first caught: the regression estimators of a closed population.
#pragma once
#include <vector>

#include "models/base/estimate_value.h"
#include "models/capture_histories.h"

namespace evet::models {

// For each sample: animals caught, those of them already marked, and marked animals at large before it. All
// vectors have one entry a sample.
struct BatchCounts {
  std::vector<double> caught;
  std::vector<double> recaptured;
  std::vector<double> at_large;
};

BatchCounts batch_counts(const CaptureHistories& histories);

// sum(C M)/sum(R), Schnabel (1938), Am. Math. Mon. 45:348-352; with one added to sum(R) as Chapman (1952,
// 1954) advised: details "plus_one". Limits: exact Poisson limits of sum(R) first, then t and normal on 1/N.
Estimate schnabel(const BatchCounts& counts, double level = 0.95);
// sum(C M^2)/sum(R M) by regression through the origin, Schumacher & Eschmeyer (1943), J. Tenn. Acad. Sci.
// 18:228-249; limits by Student's t with samples - 2 degrees of freedom on 1/N.
Estimate schumacher_eschmeyer(const BatchCounts& counts, double level = 0.95);
// Maximises sum[R ln(M/N) + (C - R) ln(1 - M/N)] with the marked known. Schnabel (1938), the exact equation.
Estimate binomial_batch(const BatchCounts& counts, double level = 0.95);
// Exact central limits for the mean of a Poisson count, from chi-square points. Garwood (1936),
// Biometrika 28.
Interval poisson_interval(double count, double level = 0.95);

}  // namespace evet::models
