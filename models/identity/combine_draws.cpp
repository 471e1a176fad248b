#include "models/identity/combine_draws.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "models/base/messages.h"
#include "models/identity/messages.h"

namespace evet::models {
namespace {

enum class Scale { log, logit, natural };

bool is_chance(Quantity quantity) {
  switch (quantity) {
    case Quantity::survival:
    case Quantity::recapture:
    case Quantity::capture:
    case Quantity::seniority:
    case Quantity::leaving:
    case Quantity::moving:
    case Quantity::passing:
    case Quantity::staying_away:
      return true;
    default:
      return false;
  }
}

double on_scale(Scale scale, double x) {
  return scale == Scale::log ? std::log(x) : scale == Scale::logit ? std::log(x / (1 - x)) : x;
}
double back(Scale scale, double y) {
  return scale == Scale::log ? std::exp(y) : scale == Scale::logit ? 1 / (1 + std::exp(-y)) : y;
}
double slope(Scale scale, double x) {  // d back / d y at x
  return scale == Scale::log ? x : scale == Scale::logit ? x * (1 - x) : 1;
}

Scale scale_of(const std::vector<Estimate>& draws) {
  constexpr double kEnd = 1e-3;
  if (draws.empty()) return Scale::log;
  if (draws.front().what.quantity == Quantity::spread_between_years) return Scale::natural;  // often nought
  if (!is_chance(draws.front().what.quantity)) return Scale::log;
  for (const Estimate& draw : draws)
    if (std::isfinite(draw.value) && (draw.value < kEnd || draw.value > 1 - kEnd)) return Scale::natural;
  return Scale::logit;
}

const MessageText& kind_of(Scale scale) {
  return scale == Scale::log     ? messages::kIntervalTOnLogDraws
         : scale == Scale::logit ? messages::kIntervalTOnLogitDraws
                                 : messages::kIntervalTDraws;
}

}  // namespace

Estimate combine_draws(const std::vector<Estimate>& draws, double level) {
  Estimate out;
  out.source = "Rubin (1987), Multiple Imputation for Nonresponse in Surveys, sections 3.1-3.3";
  if (!draws.empty()) out.what = draws.front().what, out.parameter = draws.front().parameter;
  const Scale scale = scale_of(draws);
  std::vector<double> values;
  double within = 0;
  for (const Estimate& draw : draws) {
    if (!std::isfinite(draw.value) || !std::isfinite(draw.standard_error)) continue;
    if (scale == Scale::log && draw.value <= 0) continue;
    values.push_back(on_scale(scale, draw.value));
    within += std::pow(effective_error(draw) / slope(scale, draw.value), 2);
  }
  const double m = static_cast<double>(values.size()), all = static_cast<double>(draws.size());
  out.details = {{"draws", all}, {"draws without an estimate", all - m}};
  if (values.empty() || 2 * m < all) {
    out.undefined = messages::kMostDrawsWithout;
    out.intervals = {{0, kInfinity, level, messages::kIntervalNoInformation}};
    return out;
  }
  within /= m;
  double mean = 0, between = 0;
  for (const double one : values) mean += one / m;
  for (const double one : values) between += m > 1 ? (one - mean) * (one - mean) / (m - 1) : 0;
  const double added = (1 + 1 / m) * between, total = within + added;
  // Without any spread between the draws, the t distribution is the normal one.
  const double freedom = added > 0 ? (m - 1) * std::pow(1 + within / added, 2) : kInfinity;
  const double point = freedom < 1e9
                           ? boost::math::quantile(boost::math::students_t(freedom), 1 - (1 - level) / 2)
                           : normal_point(level);
  out.value = back(scale, mean);
  if (is_chance(out.what.quantity)) out.value = std::clamp(out.value, 0.0, 1.0);
  out.standard_error = slope(scale, out.value) * std::sqrt(total);
  Interval interval{back(scale, mean - point * std::sqrt(total)),
                    back(scale, mean + point * std::sqrt(total)), level, kind_of(scale)};
  if (is_chance(out.what.quantity)) {
    interval.lower = std::max(0.0, interval.lower);
    interval.upper = std::min(1.0, interval.upper);
  }
  if (out.what.quantity == Quantity::spread_between_years) interval.lower = std::max(0.0, interval.lower);
  if (all - m > all * (1 - level) / 2) {
    interval.upper = is_chance(out.what.quantity) ? 1 : kInfinity;
    out.warnings.push_back(messages::kDrawsSetNoBound);
  }
  out.intervals = {interval};
  out.details["variance within"] = within;
  out.details["variance between"] = between;
  out.details["degrees of freedom"] = freedom;
  return out;
}

}  // namespace evet::models
