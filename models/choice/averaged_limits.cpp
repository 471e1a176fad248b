#include "models/choice/averaged_limits.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>

#include "models/base/messages.h"

namespace evet::models {
namespace {

double normal_share(double x) {
  return boost::math::cdf(boost::math::normal(), x);
}

// The scale on which an estimate is nearly normal; infinite at the ends of the range.
double on_scale(double x, Range range, double floor) {
  if (range == Range::from_0_to_1) return std::log(std::max(0.0, x)) - std::log(std::max(0.0, 1 - x));
  return std::log(std::max(0.0, range == Range::above ? x - floor : x));
}

// Share of the model's distribution below x; its limits lie `point` standard deviations from its value.
double share_below(const WeighedLimits& model, double x, Range range, double floor, double point) {
  const double limit = x < model.value ? model.lower : model.upper;
  const double side = x < model.value ? -1 : 1;
  if (x == model.value) return 0.5;
  if (!std::isfinite(limit)) return 0.5;  // nothing is known beyond the value
  if (side * (limit - model.value) <= 0) return side < 0 ? 0 : 1;
  const double at = on_scale(x, range, floor), middle = on_scale(model.value, range, floor),
               end = on_scale(limit, range, floor);
  if (!std::isfinite(middle))  // the likelihood falls off from the end in proportion to the distance
    return normal_share(side * point * std::sqrt(std::abs(x - model.value) / std::abs(limit - model.value)));
  if (!std::isfinite(end)) return normal_share(point * (x - model.value) / std::abs(limit - model.value));
  if (!std::isfinite(at) || end == middle) return side < 0 ? 0 : 1;
  return normal_share(point * (at - middle) / std::abs(end - middle));
}

}  // namespace

Interval averaged_limits(const std::vector<WeighedLimits>& models, Range range, double floor, double level) {
  const double tail = (1 - level) / 2, point = normal_point(level);
  double least = kInfinity, most = -kInfinity;
  for (const WeighedLimits& model : models) {
    least = std::min(least, std::min(model.lower, model.value));
    most = std::max(most, std::isinf(model.upper) ? model.value : model.upper);
  }
  const auto share = [&](double x) {
    double sum = 0;
    for (const WeighedLimits& model : models)
      sum += model.weight * share_below(model, x, range, floor, point);
    return sum;
  };
  const auto where = [&](double wanted, double otherwise) {
    const auto above = [&](double x) { return share(x) - wanted; };
    if (above(least) >= 0) return least;
    if (above(most) < 0) return otherwise;
    std::uintmax_t steps = 200;
    const auto [low, high] =
        boost::math::tools::bisect(above, least, most, boost::math::tools::eps_tolerance<double>(40), steps);
    return (low + high) / 2;
  };
  const bool endless = std::any_of(models.begin(), models.end(),
                                   [](const WeighedLimits& model) { return std::isinf(model.upper); });
  return {where(tail, least), where(1 - tail, endless ? kInfinity : most), level,
          messages::kIntervalAveragedTails};
}

}  // namespace evet::models
