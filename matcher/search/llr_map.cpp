#include "matcher/search/llr_map.h"

#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "matcher/search/messages.h"

namespace evet {
namespace {

double log_sum(double a, double b) {
  return std::max(a, b) + std::log1p(std::exp(-std::abs(a - b)));
}

// Back from capped().
double uncapped(double y, double lowest, double highest) {
  return y + std::log1p(-std::exp(lowest - y)) - std::log1p(-std::exp(y - highest));
}

}  // namespace

double capped(double x, double lowest, double highest) {
  return log_sum(x, lowest) - log_sum(0, x - highest);
}

double LlrMap::operator()(double llr, double lowest, double highest) const {
  if (changes_nothing()) return llr;
  // The best of several photos may lie a little under the cap.
  const double low = lowest - 2, edge = 1e-9;
  const double y = std::clamp(llr, low + edge, highest - edge);
  return capped(scale * uncapped(y, low, highest) + shift, low, highest);
}

void LlrMap::check() const {
  if (!(scale > 0) || !std::isfinite(scale) || !std::isfinite(shift))
    throw Error(ErrorKind::usage, "calibration", messages::kScaleMustBeAbove0);
}

}  // namespace evet
