#include "models/open/time_between.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "models/base/estimate_value.h"
#include "models/base/input_error.h"
#include "models/open/messages.h"

namespace evet::models {
namespace {

struct Unit {
  const char* name;
  double days;
};
constexpr Unit kUnits[] = {{"day", 1}, {"week", 7}, {"month", 30.4375}, {"year", 365.25}};
constexpr double kSameDate = 0.5;

// Days from the first date to each occasion, or to the middle of each primary period.
std::vector<double> moments(const CaptureHistories& histories, bool by_period) {
  std::vector<double> days;
  for (const std::string& date : histories.dates) days.push_back(days_between(histories.dates.front(), date));
  if (!by_period || histories.primary.empty()) return days;
  std::vector<double> first, last;
  for (std::size_t j = 0; j < days.size(); ++j) {
    const auto period = static_cast<std::size_t>(histories.primary[j]);
    if (first.size() <= period) {
      first.push_back(days[j]);
      last.push_back(days[j]);
    }
    last[period] = days[j];
  }
  for (std::size_t i = 0; i < first.size(); ++i) first[i] = (first[i] + last[i]) / 2;
  return first;
}

}  // namespace

TimeBetween time_between(const CaptureHistories& histories, bool by_period, const std::string& unit) {
  const Unit* chosen = nullptr;
  for (const Unit& one : kUnits)
    if (unit == one.name) chosen = &one;
  if (!chosen && unit != "auto" && unit != "interval")
    throw InputError("survival_per", {messages::kUnitNotKnown, {{"unit", unit}}}, messages::kUseAUnit);
  TimeBetween between;
  if (histories.dates.empty()) {
    if (chosen)
      throw InputError("survival_per", {messages::kNoDatesForUnit, {{"unit", unit}}},
                       messages::kGiveDatesOrInterval);
    return between;
  }
  const std::vector<double> at = moments(histories, by_period);
  std::vector<double> days;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) days.push_back(std::max(kSameDate, at[i + 1] - at[i]));
  if (days.empty()) return between;
  std::vector<double> sorted = days;
  std::sort(sorted.begin(), sorted.end());
  between.shortest_days = sorted.front();
  between.longest_days = sorted.back();
  if (unit == "auto" && between.uneven()) {
    const double median = sorted[sorted.size() / 2];
    for (const Unit& one : kUnits)
      if (!chosen || std::abs(std::log(median / one.days)) < std::abs(std::log(median / chosen->days)))
        chosen = &one;
  }
  if (!chosen) return between;
  between.unit = chosen->name;
  for (const double length : days) between.lengths.push_back(length / chosen->days);
  return between;
}

double units_a_year(const std::string& unit) {
  for (const Unit& one : kUnits)
    if (unit == one.name && unit != "year") return 365.25 / one.days;
  return 0;
}

double start_per_unit(double over_interval, const std::vector<double>& lengths) {
  if (lengths.empty()) return over_interval;
  const double mean =
      std::accumulate(lengths.begin(), lengths.end(), 0.0) / static_cast<double>(lengths.size());
  return std::pow(over_interval, 1 / mean);
}

double log_slope(const std::vector<double>& numbers, const std::vector<double>& lengths) {
  const double n = static_cast<double>(numbers.size());
  double time = 0, t = 0, y = 0, tt = 0, ty = 0;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    if (!(numbers[i] > 0)) return kUndefined;
    if (i > 0) time += length_of(lengths, i - 1);
    t += time;
    y += std::log(numbers[i]);
    tt += time * time;
    ty += time * std::log(numbers[i]);
  }
  return (n * ty - t * y) / (n * tt - t * t);
}

double over_time_slope(double eta, double t) {
  // t (1 - p) / (1 - p^t)
  return t == 1 ? 1 : t * logistic(-eta) / -std::expm1(t * log_logistic(eta));
}

}  // namespace evet::models
