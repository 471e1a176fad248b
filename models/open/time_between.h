// The time between occasions, so that survival and growth can be per week, month or year
// and not per interval.
//
// Over an interval of t units an animal survives with the chance S^t, numbers grow by lambda^t and
// the seniority is gamma^t (Lebreton et al. 1992, Ecol. Monogr. 62:67-118, section on unequal
// intervals, from memory).
#pragma once
#include <string>
#include <vector>

#include "models/capture_histories.h"
#include "models/fit/tape.h"

namespace evet::models {

struct TimeBetween {
  std::vector<double> lengths;  // of each interval, in units; empty: every interval is one unit
  std::string unit = "interval";
  double shortest_days = 0, longest_days = 0;  // 0 when no dates are known

  bool uneven() const { return longest_days > 1.5 * shortest_days; }
};

// Between occasions, or with `by_period` between the middles of primary periods. `unit` is "interval", "day",
// "week", "month" (30.4375 days), "year" (365.25) or "auto": by interval when there are no dates or the
// intervals are alike, else the unit nearest to the median interval. Occasions of one date count as half a
// day apart. Throws InputError for another unit, or one that needs dates that are not there.
TimeBetween time_between(const CaptureHistories& histories, bool by_period, const std::string& unit);

// How many of the unit make a year; 0 for intervals, and for years, which need no conversion.
double units_a_year(const std::string& unit);

// logit(p^t) from logit(p): the linear predictor over t units.
template <class T>
T over_time(const T& eta, double t) {
  if (t == 1) return eta;
  const T log_power = t * log_logistic(eta);
  return log_power - log1m_exp(log_power);
}
// d over_time / d eta.
double over_time_slope(double eta, double t);

// Where a search starts: what is usual over a whole interval, per unit.
double start_per_unit(double over_interval, const std::vector<double>& lengths);

// Least-squares slope of ln numbers on time, per unit; not a number where one is not above nought.
double log_slope(const std::vector<double>& numbers, const std::vector<double>& lengths);

inline double length_of(const std::vector<double>& lengths, std::size_t interval) {
  return lengths.empty() ? 1 : lengths[interval];
}

}  // namespace evet::models
