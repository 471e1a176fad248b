#include "models/periods.h"

#include <algorithm>
#include <cmath>

#include "models/base/messages.h"
#include "models/base/remark.h"

namespace evet::models {
namespace {

constexpr double kTimesAsLong = 4;
constexpr double kShortestGapDays = 10;

std::vector<double> gaps_of(const std::vector<std::string>& dates) {
  std::vector<double> gaps;
  for (std::size_t j = 0; j + 1 < dates.size(); ++j) gaps.push_back(days_between(dates[j], dates[j + 1]));
  return gaps;
}

std::vector<int> sizes_of(const std::vector<int>& primary) {
  std::vector<int> sizes;
  for (const int period : primary) {
    if (period >= static_cast<int>(sizes.size())) sizes.push_back(0);
    ++sizes.back();
  }
  return sizes;
}

bool periods_are_short(const std::vector<std::string>& dates, const std::vector<int>& primary) {
  for (std::size_t first = 0, j = 0; j < dates.size(); ++j) {
    if (primary[j] != primary[first]) first = j;
    if (days_between(dates[first], dates[j]) > kLongestClosedDays) return false;
  }
  return true;
}

}  // namespace

Message in_days(double count) {
  return {messages::kDays, {{"n", static_cast<std::size_t>(std::lround(count))}}};
}

Periods periods_by_gap(const std::vector<std::string>& dates, double gap_days) {
  Periods periods;
  periods.shortest_between_days = 1e9;
  const std::vector<double> gaps = gaps_of(dates);
  for (std::size_t j = 0; j < dates.size(); ++j) {
    const bool new_period = j > 0 && gaps[j - 1] > gap_days;
    periods.primary.push_back(j == 0 ? 0 : periods.primary.back() + (new_period ? 1 : 0));
    if (j == 0) continue;
    double& bound = new_period ? periods.shortest_between_days : periods.longest_within_days;
    bound = new_period ? std::min(bound, gaps[j - 1]) : std::max(bound, gaps[j - 1]);
  }
  return periods;
}

std::optional<Periods> periods_that_stand_out(const std::vector<std::string>& dates) {
  std::vector<double> gaps = gaps_of(dates);
  std::sort(gaps.begin(), gaps.end());
  std::optional<Periods> best;
  double best_ratio = kTimesAsLong;
  for (std::size_t i = 0; i + 1 < gaps.size(); ++i) {
    const double ratio = gaps[i + 1] / std::max(1.0, gaps[i]);
    if (ratio < best_ratio || gaps[i + 1] < kShortestGapDays) continue;
    const Periods periods = periods_by_gap(dates, gaps[i]);
    int gathered = 0, several = 0;
    for (const int nights : sizes_of(periods.primary))
      if (nights >= 2) gathered += nights, ++several;
    if (several < 2 || 3 * gathered < 2 * static_cast<int>(dates.size())) continue;
    if (!periods_are_short(dates, periods.primary)) continue;
    best = periods;
    best_ratio = ratio;
  }
  return best;
}

Message said_of(const Periods& periods) {
  std::vector<std::string> sizes;
  for (const int nights : sizes_of(periods.primary)) sizes.push_back(std::to_string(nights));
  return {messages::kPeriodsOf,
          {{"n", sizes.size()},
           {"sizes", listed(sizes)},
           {"within", in_days(periods.longest_within_days)},
           {"between", in_days(periods.shortest_between_days)}}};
}

}  // namespace evet::models
