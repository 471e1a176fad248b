#include "models/open/entry_quantities.h"

#include <algorithm>
#include <cmath>

#include "models/base/messages.h"
#include "models/fit/tape.h"
#include "models/open/messages.h"

namespace evet::models {

using Eigen::Index;
using Eigen::VectorXd;

namespace {

double caught_on(const EntryUnit& unit, std::size_t occasion) {
  return unit.all.caught[static_cast<Index>(occasion)];
}

// Not released again.
double lost_on(const EntryUnit& unit, std::size_t occasion) {
  const auto row = static_cast<Index>(occasion);
  return row < unit.all.released.size() ? unit.all.caught[row] - unit.all.released[row] : 0;
}

// A standard error in the place of one that takes a chance at its end for known.
double error_of(const Interval& interval) {
  return (interval.upper - interval.lower) / 2 / normal_point(interval.level);
}

// Limits of what is expected, turned into limits of what was there.
Interval of_those_there(Interval interval, double value, double extra) {
  const double z = normal_point(interval.level);
  const auto distance = [&](double limit) {
    const double apart = limit - value;
    return std::sqrt(std::max(0.0, apart * apart + z * z * extra));
  };
  interval.lower = value - distance(interval.lower);
  interval.upper = value + distance(interval.upper);
  return interval;
}

}  // namespace

std::vector<std::size_t> EntryQuantities::units_of(const Levels& levels) const {
  std::vector<std::size_t> units;
  for (std::size_t u = 0; u < at_.units.size(); ++u)
    if (std::all_of(levels.begin(), levels.end(), [&](const auto& level) {
          const auto& its = at_.units[u].levels;
          return std::find(its.begin(), its.end(), level) != its.end();
        }))
      units.push_back(u);
  return units;
}

double EntryQuantities::ever(const VectorXd& x, std::size_t u) const {
  const double seen = at_.units[u].seen();
  if (!at_.conditional) return seen + std::exp(x[0]);
  return seen > 0 ? seen * at_.flow(as_vector(x), u).ever : 0;
}

double EntryQuantities::came_in(const VectorXd& x, std::size_t u, std::size_t i) const {
  const auto flow = at_.flow(as_vector(x), u);
  return at_.units[u].seen() > 0 ? ever(x, u) * flow.came_in[i] / flow.ever : 0;
}

// Just before an occasion; animals lost on capture do not go on.
double EntryQuantities::present(const VectorXd& x, std::size_t u, std::size_t occasion) const {
  const EntryUnit& unit = at_.units[u];
  if (!(unit.seen() > 0)) return 0;
  const std::vector<double> theta = as_vector(x);
  const auto flow = at_.flow(theta, u);
  const double all = ever(x, u) / flow.ever;
  double n = flow.came_in[0] * all;
  for (std::size_t i = 0; i < occasion; ++i) {
    const double gone = at_.passing_share(theta, i) * flow.came_in[i] * all;
    const double staying = n > 0 ? (1 - gone / n) * std::max(0.0, n - lost_on(unit, i)) : 0;
    n = staying * logistic(at_.survival_eta(theta, u, i)) + flow.came_in[i + 1] * all;
  }
  return n;
}

// Of the animals that were there, not of a mean over surveys like this one: the spread of who happens to be
// there is taken off, and in the conditional form that of the number seen put on. A constant survival follows
// the deaths that happened only in part: half of their spread is taken off, between none and all.
double EntryQuantities::spread_beyond_fit(const VectorXd& x, std::size_t u, std::size_t occasion) const {
  const std::vector<double> theta = as_vector(x);
  double deaths = 0, alive = 1;
  for (std::size_t i = occasion + 1; i-- > 0;) {
    const double still = i < occasion ? alive * (1 - at_.passing_share(theta, i)) : alive;
    deaths += std::max(0.0, came_in(x, u, i)) * still * (1 - still);
    if (i > 0) alive *= logistic(at_.survival_eta(theta, u, i - 1));
  }
  const double all = ever(x, u);
  if (!(all > 0)) return 0;
  const double share = present(x, u, occasion) / all, star = 1 / at_.flow(theta, u).ever;
  double extra = deaths * (at_.choice.survival.by_occasion() ? 0 : 0.5) - all * share * (1 - share);
  if (at_.conditional) extra += all * share * share * (1 - star) / star;
  return extra;
}

Estimate EntryQuantities::number_ever(const Levels& levels) const {
  const std::vector<std::size_t> units = units_of(levels);
  double seen = 0, extra = 0;
  for (const std::size_t u : units) {
    const double star = 1 / at_.flow(as_vector(model_.fit.theta), u).ever;
    seen += at_.units[u].seen();
    extra += at_.units[u].seen() * (1 - star) / (star * star);
  }
  return count(
      {Quantity::number_ever, {}, levels},
      [=, this](const VectorXd& x) {
        double sum = 0;
        for (const std::size_t u : units) sum += ever(x, u);
        return sum;
      },
      seen, extra);
}

Estimate EntryQuantities::number(std::size_t occasion, const Levels& levels) const {
  const std::vector<std::size_t> units = units_of(levels);
  double caught = 0, extra = 0;
  for (const std::size_t u : units) {
    caught += caught_on(at_.units[u], occasion);
    extra += spread_beyond_fit(model_.fit.theta, u, occasion);
  }
  return count(
      {Quantity::number, static_cast<int>(occasion) + 1, levels},
      [=, this](const VectorXd& x) {
        double sum = 0;
        for (const std::size_t u : units) sum += present(x, u, occasion);
        return sum;
      },
      caught, extra);
}

Estimate EntryQuantities::entry(std::size_t i) const {
  return may_be_negative({Quantity::entry, static_cast<int>(i)}, [=, this](const VectorXd& x) {
    double in = 0, all = 0;
    for (std::size_t u = 0; u < at_.units.size(); ++u) {
      in += came_in(x, u, i);
      all += ever(x, u);
    }
    return in / all;
  });
}

Estimate EntryQuantities::births(std::size_t i) const {
  return may_be_negative({Quantity::births, static_cast<int>(i)}, [=, this](const VectorXd& x) {
    double in = 0;
    for (std::size_t u = 0; u < at_.units.size(); ++u) in += came_in(x, u, i);
    return in;
  });
}

Estimate EntryQuantities::growth_rate(std::size_t interval, const Levels& levels) const {
  const std::vector<std::size_t> units = units_of(levels);
  return of_growth({Quantity::growth_rate, static_cast<int>(interval) + 1, levels},
                   [=, this](const VectorXd& x) {
                     double before = 0, after = 0;
                     for (const std::size_t u : units) {
                       before += present(x, u, interval) - lost_on(at_.units[u], interval);
                       after += present(x, u, interval + 1);
                     }
                     return std::log(after / before) / length_of(at_.lengths, interval);
                   });
}

Estimate EntryQuantities::mean_growth(const Levels& levels) const {
  const std::vector<std::size_t> units = units_of(levels);
  return of_growth({Quantity::mean_growth, {}, levels}, [=, this](const VectorXd& x) {
    std::vector<double> numbers(at_.occasions, 0.0);
    for (std::size_t i = 0; i < numbers.size(); ++i)
      for (const std::size_t u : units) numbers[i] += present(x, u, i);
    return log_slope(numbers, at_.lengths);
  });
}

Estimate EntryQuantities::no_estimate(const Parameter& what) const {
  Estimate estimate = estimate_of(what);
  estimate.undefined = why_not_told(what);
  estimate.intervals = {{0, 1, options_.level, messages::kIntervalNoInformation}};
  return estimate;
}

Remark EntryQuantities::why_not_told(const Parameter& what) const {
  const int k = static_cast<int>(at_.occasions), i = what.index.value_or(0);
  const bool first =
      what.quantity == Quantity::number_ever || what.quantity == Quantity::entry ||
      what.quantity == Quantity::mean_growth ||
      (i == 1 && (what.quantity == Quantity::births || what.quantity == Quantity::number ||
                  what.quantity == Quantity::capture || what.quantity == Quantity::growth_rate));
  if (at_.first_confounded() && first) return messages::kFirstNotTold;
  const bool last =
      (i == k - 1 && (what.quantity == Quantity::survival || what.quantity == Quantity::births ||
                      what.quantity == Quantity::growth_rate)) ||
      (i == k && (what.quantity == Quantity::number || what.quantity == Quantity::capture));
  if (at_.last_confounded() && last) return messages::kLastNotTold;
  return {};
}

Estimate EntryQuantities::count(const Parameter& what, const OfTheta& function, double floor,
                                double extra) const {
  Estimate estimate = estimate_of(what);
  estimate.undefined = why_not_told(what);
  if (estimate.undefined.empty()) estimate.undefined = why_undefined(model_.fit, function);
  if (!estimate.undefined.empty()) {
    estimate.intervals = {{floor, kInfinity, options_.level, messages::kIntervalNoInformation}};
    return estimate;
  }
  estimate.details["counted"] = floor;
  estimate.value = function(model_.fit.theta);
  if (estimate.value < 0 && is_count(what.quantity) && what.quantity != Quantity::births) {
    estimate.value = kUndefined;
    estimate.undefined = messages::kBelowNought;
    estimate.intervals = {{floor, kInfinity, options_.level, messages::kIntervalNoInformation}};
    return estimate;
  }
  estimate.standard_error = std::sqrt(std::max(0.0, delta_variance(model_.fit, function) + extra));
  // Close to what was counted, the log-normal limits close upon it.
  const bool close = estimate.value < 1.02 * floor;
  Interval interval =
      log_normal_interval(estimate.value, estimate.standard_error, close ? 0 : floor, options_.level);
  if (off_the_end_.changes(function)) {
    interval = of_those_there(off_the_end_.limits(function), estimate.value, extra);
    estimate.standard_error = error_of(interval);
  }
  interval.lower = std::max(interval.lower, std::min(floor, estimate.value));
  estimate.intervals = {interval};
  return estimate;
}

Estimate EntryQuantities::of_growth(const Parameter& what, const OfTheta& log_growth) const {
  Estimate estimate = estimate_of(what);
  estimate.undefined = why_not_told(what);
  if (estimate.undefined.empty()) estimate.undefined = why_undefined(model_.fit, log_growth);
  estimate.intervals = {{0, kInfinity, options_.level, messages::kIntervalNoInformation}};
  if (!estimate.undefined.empty()) return estimate;
  const double log_value = log_growth(model_.fit.theta),
               sd = std::sqrt(delta_variance(model_.fit, log_growth)),
               half = normal_point(options_.level) * sd;
  estimate.value = std::exp(log_value);
  estimate.standard_error = estimate.value * sd;
  estimate.intervals = {{std::exp(log_value - half), std::exp(log_value + half), options_.level,
                         messages::kIntervalNormalOnLog}};
  if (off_the_end_.changes(log_growth)) {
    const Interval traced = off_the_end_.limits(log_growth);
    estimate.standard_error = estimate.value * error_of(traced);
    estimate.intervals = {{std::exp(traced.lower), std::exp(traced.upper), options_.level, traced.method}};
  }
  return estimate;
}

// Below nought where little or nothing came in.
Estimate EntryQuantities::may_be_negative(const Parameter& what, const OfTheta& function) const {
  Estimate estimate = count(what, function, 0, 0);
  if (estimate.undefined.empty())
    estimate.intervals = {normal_interval(estimate.value, estimate.standard_error, options_.level)};
  return estimate;
}

}  // namespace evet::models
