#include <algorithm>
#include <cmath>

#include "models/base/messages.h"
#include "models/closed/heterogeneity.h"
#include "models/closed/messages.h"

namespace evet::models {
namespace {

double frequency(const ClosedCounts& counts, std::size_t k) {
  return k <= counts.frequencies.size() ? counts.frequencies[k - 1] : 0;
}

Estimate bound(const ClosedCounts& counts, double value, double variance, double level, const char* source) {
  Estimate estimate = estimate_of({Quantity::number});
  estimate.value = value;
  estimate.standard_error = std::sqrt(variance);
  estimate.source = source;
  estimate.assumptions = {messages::kLowerBoundOnly};
  estimate.intervals = {log_normal_interval(value, estimate.standard_error, counts.seen, level)};
  if (std::isinf(value)) {
    estimate.standard_error = kUndefined;
    estimate.undefined = messages::kNoErrorNoneTwiceExactly;
    estimate.intervals = {{counts.seen, kInfinity, level, messages::kIntervalNoInformation}};
    estimate.warnings.push_back(messages::kNoneExactlyTwice);
  }
  if (counts.captures() == counts.seen) {
    estimate.intervals = {{counts.seen, kInfinity, level, messages::kIntervalNoInformation}};
    estimate.warnings.push_back(messages::kNoneTwice);
  }
  if (counts.lost_before.back() > 0) estimate.warnings.push_back(messages::kLossesUpsetBound);
  return estimate;
}

Estimate classic(const ClosedCounts& counts, double a, double level, const char* source) {
  const double f1 = frequency(counts, 1), f2 = frequency(counts, 2);
  if (f1 == 0) return bound(counts, counts.seen, 0, level, source);
  if (f2 == 0) return bound(counts, kInfinity, 0, level, source);
  const double r = f1 / f2;
  return bound(counts, counts.seen + a * f1 * f1 / (2 * f2),
               f2 * (a * a * std::pow(r, 4) / 4 + a * a * std::pow(r, 3) + a * r * r / 2), level, source);
}

}  // namespace

Estimate chao_1987(const ClosedCounts& counts, double level) {
  return classic(counts, 1, level, "Chao (1987), Biometrics 43:783-791");
}

Estimate chao_occasions(const ClosedCounts& counts, double level) {
  const double t = counts.occasions;
  return classic(counts, (t - 1) / t, level, "Chao (1989), Biometrics 45:427-438");
}

Estimate chao_bias_corrected(const ClosedCounts& counts, double level) {
  const double t = counts.occasions, a = (t - 1) / t;
  const double f1 = frequency(counts, 1), f2 = frequency(counts, 2);
  const double value = counts.seen + a * f1 * (f1 - 1) / (2 * (f2 + 1));
  const double variance = a * f1 * (f1 - 1) / (2 * (f2 + 1)) +
                          a * a * f1 * (2 * f1 - 1) * (2 * f1 - 1) / (4 * (f2 + 1) * (f2 + 1)) +
                          a * a * f1 * f1 * f2 * (f1 - 1) * (f1 - 1) / (4 * std::pow(f2 + 1, 4));
  return bound(counts, value, std::max(0.0, variance), level, "Chao (1989), Biometrics 45:427-438");
}

}  // namespace evet::models
