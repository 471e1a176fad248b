#include "models/closed/schnabel.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <string>
#include <tuple>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/messages.h"

namespace evet::models {
namespace {

struct BatchSums {
  double caught = 0, recaptured = 0, cm = 0, cm2 = 0, rm = 0, r2_over_c = 0, most_at_large = 0, distinct = 0;
};

BatchSums sums_of(const BatchCounts& counts) {
  const std::size_t s = counts.caught.size();
  if (counts.recaptured.size() != s || counts.at_large.size() != s)
    throw InputError(messages::kItemBatchCounts, messages::kRowsUnequal, messages::kOneEntryASample);
  BatchSums sums;
  for (std::size_t i = 0; i < s; ++i) {
    const double c = counts.caught[i];
    const double r = counts.recaptured[i];
    const double m = counts.at_large[i];
    if (!(c >= 0 && r >= 0 && m >= 0 && r <= c && r <= m && c < 1e9 && m < 1e9))
      throw InputError(Message(messages::kItemSample, {{"n", std::to_string(i + 1)}}),
                       messages::kCountsDoNotFit, messages::kRecapturedArePart);
    sums.caught += c;
    sums.recaptured += r;
    sums.cm += c * m;
    sums.cm2 += c * m * m;
    sums.rm += r * m;
    if (c > 0) sums.r2_over_c += r * r / c;
    sums.most_at_large = std::max(sums.most_at_large, m + c - r);
    sums.distinct += c - r;
  }
  return sums;
}

Estimate start(const BatchSums& sums, const char* source) {
  Estimate estimate = estimate_of({Quantity::number});
  estimate.source = source;
  estimate.assumptions = {messages::kNoneWhileSampling, messages::kMarkedCaughtAlike,
                          messages::kEachRecognised};
  estimate.details = {{"sum_C", sums.caught}, {"sum_R", sums.recaptured}, {"sum_CM", sums.cm},
                      {"sum_CM2", sums.cm2},  {"sum_RM", sums.rm},        {"sum_R2_over_C", sums.r2_over_c}};
  if (sums.recaptured == 0)
    estimate.warnings.push_back(messages::kNoMarkedAgain);
  else if (sums.recaptured < 10)
    estimate.warnings.push_back(messages::kFewerThanTenWide);
  return estimate;
}

void set_undefined(Estimate& estimate, const BatchSums& sums, double level) {
  const bool informative = sums.cm > 0;
  estimate.value = informative ? kInfinity : kUndefined;
  estimate.undefined = informative ? messages::kNoErrorNoneMarked : messages::kNoneWhileMarked;
  const double lower =
      informative ? std::max(sums.distinct, sums.cm / poisson_interval(0, level).upper) : sums.distinct;
  estimate.intervals = {{lower, kInfinity, level,
                         informative ? messages::kIntervalExactPoisson : messages::kIntervalNoInformation}};
}

Interval inverted(double value, double half, double level, const MessageText& method) {
  const double low = 1 / value - half;
  return {1 / (1 / value + half), low > 0 ? 1 / low : kInfinity, level, method};
}

double t_point(double level, double df) {
  return boost::math::quantile(boost::math::students_t(df), 0.5 + level / 2);
}

}  // namespace

BatchCounts batch_counts(const CaptureHistories& histories) {
  histories.check();
  const std::size_t k = histories.occasion_count();
  BatchCounts counts{std::vector<double>(k), std::vector<double>(k), std::vector<double>(k)};
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    std::size_t last = 0;
    for (std::size_t j = 0; j < k; ++j)
      if (histories.was_caught(i, j)) last = j;
    bool marked = false;
    for (std::size_t j = 0; j < k; ++j) {
      if (marked && !(histories.was_lost(i) && j > last)) ++counts.at_large[j];
      if (!histories.was_caught(i, j)) continue;
      ++counts.caught[j];
      if (marked) ++counts.recaptured[j];
      marked = true;
    }
  }
  return counts;
}

Interval poisson_interval(double count, double level) {
  normal_point(level);
  const double alpha = (1 - level) / 2;
  using boost::math::chi_squared;
  Interval interval{0, quantile(chi_squared(2 * count + 2), 1 - alpha) / 2, level,
                    messages::kIntervalExactPoisson};
  if (count > 0) interval.lower = quantile(chi_squared(2 * count), alpha) / 2;
  return interval;
}

Estimate schnabel(const BatchCounts& counts, double level) {
  const BatchSums sums = sums_of(counts);
  Estimate estimate =
      start(sums, "Schnabel (1938), Am. Math. Mon. 45:348-352; Chapman (1952), Biometrics 8:286-306");
  if (sums.cm > 0) estimate.details["plus_one"] = sums.cm / (sums.recaptured + 1);
  if (sums.recaptured == 0) {
    set_undefined(estimate, sums, level);
    return estimate;
  }
  estimate.value = sums.cm / sums.recaptured;
  const double se_inverse = std::sqrt(sums.recaptured) / sums.cm;
  estimate.details["var_inverse"] = se_inverse * se_inverse;
  estimate.details["se_inverse"] = se_inverse;
  estimate.standard_error = estimate.value * estimate.value * se_inverse;
  const Interval poisson = poisson_interval(sums.recaptured, level);
  estimate.intervals.push_back(
      {sums.cm / poisson.upper, sums.cm / poisson.lower, level, messages::kIntervalExactPoisson});
  const double df = static_cast<double>(counts.caught.size()) - 1;
  if (df >= 1)
    estimate.intervals.push_back(
        inverted(estimate.value, t_point(level, df) * se_inverse, level, messages::kIntervalTOnInverse));
  estimate.intervals.push_back(
      inverted(estimate.value, normal_point(level) * se_inverse, level, messages::kIntervalNormalOnInverse));
  return estimate;
}

Estimate schumacher_eschmeyer(const BatchCounts& counts, double level) {
  const BatchSums sums = sums_of(counts);
  Estimate estimate = start(sums, "Schumacher & Eschmeyer (1943), J. Tenn. Acad. Sci. 18:228-249");
  if (sums.recaptured == 0) {
    set_undefined(estimate, sums, level);
    return estimate;
  }
  estimate.value = sums.cm2 / sums.rm;
  const double df = static_cast<double>(counts.caught.size()) - 2;
  if (df < 1) {
    estimate.undefined = messages::kErrorNeedsThree;
    estimate.intervals.push_back({sums.distinct, kInfinity, level, messages::kIntervalNoInformation});
    return estimate;
  }
  const double residual = std::max(0.0, (sums.r2_over_c - sums.rm * sums.rm / sums.cm2) / df);
  const double se_inverse = std::sqrt(residual / sums.cm2);
  estimate.details["residual_variance"] = residual;
  estimate.details["se_inverse"] = se_inverse;
  estimate.standard_error = estimate.value * estimate.value * se_inverse;
  estimate.intervals.push_back(
      inverted(estimate.value, t_point(level, df) * se_inverse, level, messages::kIntervalTOnInverse));
  return estimate;
}

Estimate binomial_batch(const BatchCounts& counts, double level) {
  const BatchSums sums = sums_of(counts);
  Estimate estimate = start(sums, "Schnabel (1938), Am. Math. Mon. 45:348-352");
  double most = 0;
  for (const double m : counts.at_large) most = std::max(most, m);
  if (sums.recaptured == 0) {
    set_undefined(estimate, sums, level);
    return estimate;
  }
  // Scaled score: sum (C - R) M/(N - M) - sum R, falling in N; its root lies above the most marked at large.
  const auto score = [&](double n) {
    double sum = -sums.recaptured;
    for (std::size_t i = 0; i < counts.caught.size(); ++i)
      if (counts.caught[i] > counts.recaptured[i])
        sum += (counts.caught[i] - counts.recaptured[i]) * counts.at_large[i] / (n - counts.at_large[i]);
    return sum;
  };
  double low = most * (1 + 1e-15);
  double high = 2 * most + 1;
  while (score(high) > 0 && high < 1e15) high *= 2;
  if (score(low) <= 0) {
    high = low;
  } else if (score(high) > 0) {
    low = high;
  } else {
    std::uintmax_t steps = 200;
    std::tie(low, high) =
        boost::math::tools::bisect(score, low, high, boost::math::tools::eps_tolerance<double>(50), steps);
  }
  estimate.value = (low + high) / 2;
  double information = 0;
  for (std::size_t i = 0; i < counts.caught.size(); ++i)
    if (counts.at_large[i] < estimate.value)
      information += counts.caught[i] * counts.at_large[i] /
                     (estimate.value * estimate.value * (estimate.value - counts.at_large[i]));
  estimate.standard_error = information > 0 ? 1 / std::sqrt(information) : 0;
  estimate.intervals.push_back(
      log_normal_interval(estimate.value, estimate.standard_error, sums.most_at_large, level));
  return estimate;
}

}  // namespace evet::models
