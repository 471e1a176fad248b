#include <algorithm>
#include <cmath>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/heterogeneity.h"
#include "models/closed/messages.h"

namespace evet::models {
namespace {

struct Figures {
  double n, coverage, over_coverage, gamma2;
};

// `pairs` is t/(t-1) times 1 for equal occasions, or n^2 / (2 sum n_j n_k) for unequal ones.
Figures figures_of(const std::vector<double>& f, double t, int which, double pairs) {
  double seen = 0, captures = 0, squares = 0;
  for (std::size_t i = 0; i < f.size(); ++i) {
    const double k = static_cast<double>(i) + 1;
    seen += f[i];
    captures += k * f[i];
    squares += k * (k - 1) * f[i];
  }
  const auto frequency = [&](std::size_t k) { return k <= f.size() ? f[k - 1] : 0.0; };
  double missed = frequency(1);
  if (which >= 2) missed -= 2 * frequency(2) / (t - 1);
  if (which >= 3 && t > 2) missed += 6 * frequency(3) / ((t - 1) * (t - 2));
  const double coverage = 1 - missed / captures;
  const double over = seen / coverage;
  const double gamma2 = std::max(0.0, over * pairs * squares / (captures * captures) - 1);
  return {over + frequency(1) / coverage * gamma2, coverage, over, gamma2};
}

}  // namespace

Estimate sample_coverage(const ClosedCounts& counts, int which, bool by_occasion, double level) {
  if (counts.occasions < 2 || counts.seen < 1 || which < 1 || which > 3)
    throw InputError(messages::kItemSampleCoverage,
                     {messages::kSoManyOccasions, {{"occasions", std::to_string(counts.occasions)}}},
                     messages::kCoverageNeeds);
  const double t = counts.occasions;
  double pairs = t / (t - 1);
  if (by_occasion) {
    double squares = 0;
    for (const double n : counts.caught) squares += n * n;
    const double cross = counts.captures() * counts.captures() - squares;  // 2 sum over j < k of n_j n_k
    pairs = cross > 0 ? counts.captures() * counts.captures() / cross : 0;
  }
  const Figures figures = figures_of(counts.frequencies, t, which, pairs);
  Estimate estimate = estimate_of({Quantity::number});
  estimate.source = "Chao, Lee & Jeng (1992), Biometrics 48:201-216";
  estimate.assumptions = {by_occasion ? messages::kAnimalsAndOccasionsDiffered : messages::kOwnChance};
  estimate.details = {{"coverage", figures.coverage},
                      {"seen_over_coverage", figures.over_coverage},
                      {"gamma2", figures.gamma2}};
  if (!(figures.coverage > 1e-9)) {
    estimate.value = kInfinity;
    estimate.undefined = messages::kNoErrorNoneTwice;
    estimate.intervals = {{counts.seen, kInfinity, level, messages::kIntervalNoInformation}};
    estimate.warnings = {messages::kNoneTwice};
    return estimate;
  }
  estimate.value = figures.n;
  // Delta method over the multinomial frequencies: sum g_k^2 f_k - (sum g_k f_k)^2 / N.
  double squares = 0, sum = 0;
  for (std::size_t k = 0; k < counts.frequencies.size(); ++k) {
    if (counts.frequencies[k] == 0) continue;
    std::vector<double> f = counts.frequencies;
    const double h = 1e-4 * f[k];
    f[k] += h;
    const double up = figures_of(f, t, which, pairs).n;
    f[k] -= 2 * h;
    const double slope = (up - figures_of(f, t, which, pairs).n) / (2 * h);
    squares += slope * slope * counts.frequencies[k];
    sum += slope * counts.frequencies[k];
  }
  estimate.standard_error = std::sqrt(std::max(0.0, squares - sum * sum / std::max(1.0, figures.n)));
  estimate.intervals = {log_normal_interval(estimate.value, estimate.standard_error, counts.seen, level)};
  if (figures.coverage < 0.5) estimate.warnings.push_back(messages::kLessThanHalfCovered);
  if (counts.lost_before.back() > 0) estimate.warnings.push_back(messages::kLossesUpsetCoverage);
  return estimate;
}

}  // namespace evet::models
