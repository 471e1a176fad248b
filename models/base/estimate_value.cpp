#include "models/base/estimate_value.h"

#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "models/base/input_error.h"
#include "models/base/messages.h"

namespace evet::models {

Estimate estimate_of(const Parameter& what) {
  Estimate estimate;
  estimate.what = what;
  estimate.parameter = what.name();
  return estimate;
}

double normal_point(double level) {
  if (!(level > 0 && level < 1))
    throw InputError(messages::kItemConfidenceLevel, {messages::kIsValue, {{"value", std::to_string(level)}}},
                     messages::kGiveBetween0And1);
  return boost::math::quantile(boost::math::normal(), 0.5 + level / 2);
}

Interval log_normal_interval(double value, double standard_error, double seen, double level) {
  Interval interval{seen, seen, level, messages::kIntervalLogNormal};
  const double unseen = value - seen;
  const double z = normal_point(level);
  if (std::isnan(value) || std::isnan(standard_error))
    return {seen, kInfinity, level, messages::kIntervalLogNormal};
  if (std::isinf(value) || std::isinf(standard_error))
    return {seen, kInfinity, level, messages::kIntervalLogNormal};
  if (unseen <= 0) return interval;
  const double factor =
      std::exp(z * std::sqrt(std::log1p(standard_error * standard_error / (unseen * unseen))));
  interval.lower = seen + unseen / factor;
  interval.upper = seen + unseen * factor;
  return interval;
}

Interval normal_interval(double value, double standard_error, double level) {
  const double half = normal_point(level) * standard_error;
  return {value - half, value + half, level, messages::kIntervalNormal};
}

}  // namespace evet::models
