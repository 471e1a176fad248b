#include "models/closed/two_sample.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/log_choose.h"
#include "models/closed/messages.h"

namespace evet::models {
namespace {

void check(const TwoSampleCounts& counts) {
  const auto [m, c, r] = counts;
  for (const double count : {m, c, r})
    if (!(count >= 0) || count != std::floor(count) || count > 1e9)
      throw InputError(messages::kItemTwoSampleCounts,
                       {messages::kCountIs, {{"count", std::to_string(count)}}}, messages::kGiveWholeNumbers);
  if (r > std::min(m, c))
    throw InputError(messages::kItemTwoSampleCounts, messages::kTooManyRecaptured,
                     messages::kRecapturedAreOfBoth);
}

Estimate start(const TwoSampleCounts& counts, const char* source) {
  check(counts);
  Estimate estimate = estimate_of({Quantity::number});
  estimate.source = source;
  estimate.assumptions = {messages::kNoneBetweenTheTwo, messages::kAlikeOnOneOfTwo,
                          messages::kCatchingChangesNothing, messages::kEachRecognised};
  estimate.details["distinct_animals"] = counts.marked + counts.caught - counts.recaptured;
  if (counts.caught == 0)
    estimate.warnings.push_back(messages::kNothingOnSecond);
  else if (counts.recaptured == 0)
    estimate.warnings.push_back(messages::kNoMarkedAgain);
  else if (counts.recaptured < 7)
    estimate.warnings.push_back(messages::kFewerThanSeven);
  return estimate;
}

void add_intervals(Estimate& estimate, const TwoSampleCounts& counts, double level) {
  const double seen = estimate.details["distinct_animals"];
  const bool bounded = counts.recaptured > 0;
  // The exact limits hold what they promise however few the recaptures.
  if (counts.caught > 0 && counts.marked > 0)
    estimate.intervals.push_back(hypergeometric_interval(counts, level));
  if (bounded)
    estimate.intervals.push_back(log_normal_interval(estimate.value, estimate.standard_error, seen, level));
  if (bounded) estimate.intervals.push_back(normal_interval(estimate.value, estimate.standard_error, level));
  if (estimate.intervals.empty())
    estimate.intervals.push_back({seen, kInfinity, level, messages::kIntervalNoInformation});
}

// Pr(recaptures <= r) or Pr(recaptures >= r) for a population of n.
double tail(const TwoSampleCounts& counts, double n, bool upper) {
  const auto [m, c, r] = counts;
  const auto from = static_cast<std::int64_t>(upper ? r : std::max(0.0, m + c - n));
  const auto to = static_cast<std::int64_t>(upper ? std::min(m, c) : r);
  double sum = 0;
  for (std::int64_t i = from; i <= to; ++i) {
    const auto k = static_cast<double>(i);
    sum += std::exp(log_choose(m, k) + log_choose(n - m, c - k) - log_choose(n, c));
  }
  return sum;
}

}  // namespace

TwoSampleCounts two_sample_counts(const CaptureHistories& histories) {
  histories.check();
  if (histories.occasion_count() != 2)
    throw InputError(messages::kItemTwoSampleEstimate,
                     {messages::kSoManyOccasions, {{"occasions", histories.occasion_count()}}},
                     messages::kGiveExactlyTwo);
  TwoSampleCounts counts;
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    const bool first = histories.was_caught(i, 0);
    const bool second = histories.was_caught(i, 1);
    if (first && !second && histories.was_lost(i)) continue;
    counts.marked += first;
    counts.caught += second;
    counts.recaptured += first && second;
  }
  return counts;
}

Estimate lincoln_petersen(const TwoSampleCounts& counts, double level) {
  Estimate estimate =
      start(counts, "Petersen (1896), Rep. Dan. Biol. Stn 6; Lincoln (1930), USDA Circular 118");
  const auto [m, c, r] = counts;
  if (r > 0) {
    estimate.value = m * c / r;
    estimate.standard_error = std::sqrt(m * m * c * (c - r) / (r * r * r));
  } else if (m > 0 && c > 0) {
    estimate.value = kInfinity;
    estimate.undefined = messages::kNoErrorNoneMarked;
  } else {
    estimate.undefined = messages::kOneSampleEmpty;
  }
  add_intervals(estimate, counts, level);
  return estimate;
}

Estimate chapman(const TwoSampleCounts& counts, double level) {
  Estimate estimate =
      start(counts, "Chapman (1951), Univ. Calif. Publ. Stat. 1; Seber (1970), Biometrics 26:13-22");
  const auto [m, c, r] = counts;
  estimate.value = (m + 1) * (c + 1) / (r + 1) - 1;
  estimate.standard_error = std::sqrt((m + 1) * (c + 1) * (m - r) * (c - r) / ((r + 1) * (r + 1) * (r + 2)));
  add_intervals(estimate, counts, level);
  return estimate;
}

Estimate bailey(const TwoSampleCounts& counts, double level) {
  Estimate estimate = start(counts, "Bailey (1951), Biometrika 38:293-306");
  estimate.assumptions.push_back(messages::kDrawnWithReplacement);
  const auto [m, c, r] = counts;
  estimate.value = m * (c + 1) / (r + 1);
  estimate.standard_error = std::sqrt(m * m * (c + 1) * (c - r) / ((r + 1) * (r + 1) * (r + 2)));
  add_intervals(estimate, counts, level);
  return estimate;
}

Interval hypergeometric_interval(const TwoSampleCounts& counts, double level) {
  check(counts);
  normal_point(level);
  const double alpha = (1 - level) / 2;
  const double smallest = counts.marked + counts.caught - counts.recaptured;
  Interval interval{smallest, kInfinity, level, messages::kIntervalExactHypergeometric};
  // As the population grows Pr(<= r) grows and Pr(>= r) falls, so both ends are found by halving.
  const auto last_with = [&](double from, auto&& holds) {
    double step = 1;
    while (holds(from + step) && step < 1e15) step *= 2;
    double low = from + (step == 1 ? 0 : step / 2);
    double high = from + step;
    while (high - low > 1) {
      const double middle = std::floor((low + high) / 2);
      (holds(middle) ? low : high) = middle;
    }
    return low;
  };
  if (tail(counts, smallest, false) < alpha)
    interval.lower = last_with(smallest, [&](double n) { return tail(counts, n, false) < alpha; }) + 1;
  if (counts.recaptured > 0)
    interval.upper = last_with(interval.lower, [&](double n) { return tail(counts, n, true) >= alpha; });
  return interval;
}

}  // namespace evet::models
