#include "models/closed/exact_distinct.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "models/base/messages.h"
#include "models/closed/log_choose.h"

namespace evet::models {
namespace {

constexpr double kMostAnimals = 3000;

}  // namespace

DistinctTails distinct_tails(const std::vector<double>& catches, double distinct, double number) {
  const auto most = static_cast<std::size_t>(number);
  std::vector<double> known(most + 1, 0.0);  // chance that so many different animals were seen so far
  known[0] = 1;
  for (const double caught : catches) {
    std::vector<double> next(most + 1, 0.0);
    const double all = log_choose(number, caught);
    for (std::size_t m = 0; m <= most; ++m) {
      if (known[m] < 1e-300) continue;
      const double seen = static_cast<double>(m), unseen = number - seen;
      const double least_new = std::max(0.0, caught - seen), most_new = std::min(caught, unseen);
      for (double newly = least_new; newly <= most_new; ++newly)
        next[m + static_cast<std::size_t>(newly)] +=
            known[m] * std::exp(log_choose(unseen, newly) + log_choose(seen, caught - newly) - all);
    }
    known = std::move(next);
  }
  const auto middle = static_cast<std::ptrdiff_t>(distinct);
  return {std::accumulate(known.begin(), known.begin() + middle + 1, 0.0),
          std::accumulate(known.begin() + middle, known.end(), 0.0)};
}

Interval exact_distinct_interval(const std::vector<double>& catches, double distinct, double level) {
  const double tail = (1 - level) / 2;
  normal_point(level);
  Interval interval{distinct, kInfinity, level, messages::kIntervalExactAllAlike};
  const double captures = std::accumulate(catches.begin(), catches.end(), 0.0);
  if (captures <= distinct || distinct > kMostAnimals) {
    interval.method = messages::kIntervalNoInformation;
    return interval;
  }
  while (distinct_tails(catches, distinct, interval.lower).at_least <= tail) ++interval.lower;
  double high = std::max(interval.lower, distinct);
  double step = 1;
  while (distinct_tails(catches, distinct, high + step).at_most > tail) {
    high += step;
    step *= 2;
    if (high > 4 * kMostAnimals) return interval;
  }
  for (double low = high, end = high + step; end - low > 1;) {
    const double middle = std::floor((low + end) / 2);
    (distinct_tails(catches, distinct, middle).at_most > tail ? low : end) = middle;
    high = low;
  }
  interval.upper = high;
  return interval;
}

void widen_if_certain(Estimate& estimate, const std::vector<double>& catches, double distinct, double level) {
  if (!std::isfinite(estimate.value) || estimate.intervals.empty()) return;
  const Interval& first = estimate.intervals.front();
  if (first.upper - first.lower > 1e-6 * (1 + std::abs(estimate.value))) return;
  Interval exact = exact_distinct_interval(catches, distinct, level);
  exact.lower = std::min(exact.lower, estimate.value);
  exact.upper = std::max(exact.upper, estimate.value);
  std::erase_if(estimate.intervals, [](const Interval& one) { return one.upper - one.lower < 1e-6; });
  estimate.intervals.insert(estimate.intervals.begin(), exact);
}

}  // namespace evet::models
