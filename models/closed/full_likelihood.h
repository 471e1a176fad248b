// Closed-population models with full likelihood: N! / (N - S)! times the chance of the histories, N real.
//
// Otis, Burnham, White & Anderson (1978), Wildl. Monogr. 62; Darroch (1958), Biometrika 45:343-359; mixtures:
// Pledger (2000), Biometrics 56:434-442; beta-binomial: Dorazio & Royle (2003), Biometrics 59:351-364. The
// log-likelihood leaves out the multiplicities of the histories, so all models here compare on the same data.
//
// Parameters are named "N" (seen + exp of its coordinate), "p ...", "c ..." (capture again), "share ...".
#pragma once
#include "models/closed/closed_counts.h"
#include "models/fit/fitted_model.h"

namespace evet::models {

FittedModel fit_constant(const ClosedCounts& counts, const ModelOptions& options = {});           // M0
FittedModel fit_occasion(const ClosedCounts& counts, const ModelOptions& options = {});           // Mt
FittedModel fit_response(const ClosedCounts& counts, const ModelOptions& options = {});           // Mb
FittedModel fit_occasion_response(const ClosedCounts& counts, const ModelOptions& options = {});  // Mtb
FittedModel fit_mixture(const ClosedCounts& counts, const ModelOptions& options = {});  // Mh, two groups
FittedModel fit_beta_binomial(const ClosedCounts& counts, const ModelOptions& options = {});     // Mh
FittedModel fit_occasion_mixture(const ClosedCounts& counts, const ModelOptions& options = {});  // Mth
FittedModel fit_response_mixture(const ClosedCounts& counts, const ModelOptions& options = {});  // Mbh

// The eight above by their names.
struct FullModel {
  const char* name;
  FittedModel (*fit)(const ClosedCounts&, const ModelOptions&);
};
const std::vector<FullModel>& full_models();

// Removal: the catches of each pass, caught animals taken out. Zippin (1958), J. Wildl. Manage. 22:82-90.
FittedModel fit_removal(const std::vector<double>& catches, const ModelOptions& options = {});

// Large-sample standard errors of N at known chances, for planning and as the textbook error of a fit.
// Darroch (1958): N / (1 / prod q_j + t - 1 - sum 1 / q_j), q = 1 - p (constant p: M0).
double large_sample_se(double n, const std::vector<double>& p);
// Zippin (1956), Otis et al. (1978): N q^t (1 - q^t) / ((1 - q^t)^2 - t^2 p^2 q^(t - 1)).
double large_sample_se_response(double n, double p, double occasions);

// Sum of (t + 1 - 2 j) u_j; the estimate of Mb and of removal is finite only when it is above zero. Seber &
// Whale (1970), Biometrics 26:393-400.
double removal_criterion(const std::vector<double>& newly);

}  // namespace evet::models
