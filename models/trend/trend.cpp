#include "models/trend/trend.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <functional>
#include <tuple>

#include "models/base/messages.h"
#include "models/capture_histories.h"
#include "models/trend/messages.h"

namespace evet::models {
namespace {

struct Line {
  double mean = 0, slope = 0, mean_error = 0, slope_error = 0, squares = 0;
};

Line weighted_line(const std::vector<double>& values, const std::vector<double>& variances,
                   const std::vector<double>& at, double process) {
  double weights = 0, x_mean = 0, y_mean = 0, xx = 0, xy = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double w = 1 / (variances[i] + process);
    weights += w;
    y_mean += w * values[i];
    x_mean += at.empty() ? 0 : w * at[i];
  }
  y_mean /= weights;
  x_mean /= weights;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const double w = 1 / (variances[i] + process);
    xx += w * (at[i] - x_mean) * (at[i] - x_mean);
    xy += w * (at[i] - x_mean) * (values[i] - y_mean);
  }
  Line line{y_mean, xx > 0 ? xy / xx : 0, std::sqrt(1 / weights), xx > 0 ? std::sqrt(1 / xx) : 0, 0};
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double off = values[i] - y_mean - (at.empty() ? 0 : line.slope * (at[i] - x_mean));
    line.squares += off * off / (variances[i] + process);
  }
  return line;
}

// The process variance at which the squares, which fall as it grows, come down to `wanted`; 0 where they lie below
// from the start.
double where_squares_are(const std::function<double(double)>& squares, double wanted, double scale) {
  if (squares(0) <= wanted) return 0;
  double low = 0, high = scale;
  for (int doubled = 0; squares(high) > wanted; ++doubled) {
    if (doubled == 200) return kInfinity;
    high *= 2;
  }
  std::uintmax_t steps = 200;
  std::tie(low, high) =
      boost::math::tools::bisect([&](double process) { return squares(process) - wanted; }, low, high,
                                 boost::math::tools::eps_tolerance<double>(46), steps);
  return (low + high) / 2;
}

// In days since `first`.
double middle_day(const std::string& first, const Moment& moment) {
  return (days_between(first, moment.first) + days_between(first, moment.last)) / 2;
}

}  // namespace

VarianceComponents variance_components(const std::vector<double>& values,
                                       const std::vector<double>& variances, const std::vector<double>& at,
                                       double level) {
  const auto squares = [&](double process) { return weighted_line(values, variances, at, process).squares; };
  const double scale = *std::max_element(variances.begin(), variances.end());
  VarianceComponents out;
  out.degrees_of_freedom = static_cast<double>(values.size()) - (at.empty() ? 1 : 2);
  out.squares = squares(0);
  out.process_variance = where_squares_are(squares, out.degrees_of_freedom, scale);
  const boost::math::chi_squared of(out.degrees_of_freedom);
  out.lower = where_squares_are(squares, boost::math::quantile(of, 0.5 + level / 2), scale);
  out.upper = where_squares_are(squares, boost::math::quantile(of, 0.5 - level / 2), scale);
  const Line line = weighted_line(values, variances, at, out.process_variance);
  out.mean = line.mean;
  out.slope = line.slope;
  out.mean_error = line.mean_error;
  out.slope_error = line.slope_error;
  return out;
}

std::vector<Estimate> yearly_trend(const std::vector<YearlyNumber>& numbers, double level) {
  constexpr std::size_t kFewestYears = 4;
  if (numbers.size() < kFewestYears) return {};
  std::vector<double> values, variances, at;
  for (const YearlyNumber& one : numbers) {
    if (!(one.number > 0) || !(one.standard_error > 0) || !std::isfinite(one.standard_error)) return {};
    const double relative = one.standard_error / one.number;
    values.push_back(std::log(one.number));
    variances.push_back(std::log1p(relative * relative));  // of a log-normal number
    at.push_back(one.years);
  }
  const VarianceComponents parts = variance_components(values, variances, at, level);
  const boost::math::students_t t(parts.degrees_of_freedom);
  const double half = boost::math::quantile(t, 0.5 + level / 2) * parts.slope_error;
  Estimate trend = estimate_of({Quantity::yearly_trend});
  trend.value = std::exp(parts.slope);
  trend.standard_error = trend.value * parts.slope_error;
  trend.intervals = {
      {std::exp(parts.slope - half), std::exp(parts.slope + half), level, messages::kIntervalTOnLog}};
  trend.details = {{"years", static_cast<double>(numbers.size())}};
  trend.assumptions = {messages::kYearsAboutALine, messages::kTheseYearsAlone};
  trend.source =
      "Link & Nichols (1994), Oikos 69:539-544; Paule & Mandel (1982), J. Res. Natl. Bur. Stand. 87:377-385";
  Estimate spread = estimate_of({Quantity::spread_between_years});
  spread.value = std::sqrt(parts.process_variance);
  const double lower = std::sqrt(parts.lower), upper = std::sqrt(parts.upper);
  spread.standard_error = std::isfinite(upper) ? (upper - lower) / (2 * normal_point(level)) : kUndefined;
  spread.intervals = {{lower, upper, level, messages::kIntervalWeightedSquares}};
  spread.details = {{"squares", parts.squares}, {"degrees of freedom", parts.degrees_of_freedom}};
  spread.source = "Viechtbauer (2007), Stat. Med. 26:37-52; Burnham et al. (1987), Am. Fish. Soc. Monogr. 5";
  return {trend, spread};
}

std::vector<YearlyNumber> yearly_numbers(const std::vector<Estimate>& answer,
                                         const std::vector<Moment>& moments) {
  constexpr double kHalfYear = 180, kYear = 365.25;
  std::vector<YearlyNumber> numbers;
  for (const Estimate& estimate : answer) {
    const Parameter& what = estimate.what;
    if (what.quantity != Quantity::number || !what.index || !what.groups.empty()) continue;
    if (!estimate.undefined.empty() || !std::isfinite(estimate.value)) continue;
    const int index = *what.index;
    if (index < 1 || index > static_cast<int>(moments.size())) return {};
    const Moment& moment = moments[static_cast<std::size_t>(index) - 1];
    if (!moment.dated()) return {};
    const double years = middle_day(moments.front().first, moment) / kYear;
    if (!numbers.empty() && years - numbers.back().years < kHalfYear / kYear) return {};
    numbers.push_back({years, estimate.value, estimate.standard_error});
  }
  return numbers;
}

}  // namespace evet::models
