#include "models/choice/combine_draws.h"

#include <boost/math/distributions/students_t.hpp>
#include <cmath>

namespace evet::models {

Estimate combine_draws(const std::vector<Estimate>& draws, double level) {
  Estimate out;
  out.source = "Rubin (1987), Multiple Imputation for Nonresponse in Surveys, sections 3.1-3.3";
  if (!draws.empty()) out.what = draws.front().what, out.parameter = draws.front().parameter;
  std::vector<double> logs;
  double within = 0;
  for (const Estimate& draw : draws) {
    if (!std::isfinite(draw.value) || draw.value <= 0 || !std::isfinite(draw.standard_error)) continue;
    logs.push_back(std::log(draw.value));
    within += std::pow(draw.standard_error / draw.value, 2);
  }
  const double m = static_cast<double>(logs.size()), all = static_cast<double>(draws.size());
  out.details = {{"draws", all}, {"draws without an estimate", all - m}};
  if (logs.empty() || 2 * m < all) {
    out.undefined = "more than half of the draws have no estimate";
    return out;
  }
  within /= m;
  double mean = 0, between = 0;
  for (const double one : logs) mean += one / m;
  for (const double one : logs) between += m > 1 ? (one - mean) * (one - mean) / (m - 1) : 0;
  const double added = (1 + 1 / m) * between, total = within + added;
  // Without any spread between the draws, the t distribution is the normal one.
  const double freedom = added > 0 ? (m - 1) * std::pow(1 + within / added, 2) : kInfinity;
  const double point = freedom < 1e9
                           ? boost::math::quantile(boost::math::students_t(freedom), 1 - (1 - level) / 2)
                           : normal_point(level);
  out.value = std::exp(mean);
  out.standard_error = out.value * std::sqrt(total);
  Interval interval{out.value * std::exp(-point * std::sqrt(total)),
                    out.value * std::exp(point * std::sqrt(total)), level,
                    "Student's t on the logarithm, over the draws"};
  if (all - m > all * (1 - level) / 2) {
    interval.upper = kInfinity;
    out.warnings.push_back("Some of the draws set no bound to the estimate.");
  }
  out.intervals = {interval};
  out.details["variance within"] = within;
  out.details["variance between"] = between;
  out.details["degrees of freedom"] = freedom;
  return out;
}

}  // namespace evet::models
