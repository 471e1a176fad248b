#include "models/closed/seen_once.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>

namespace evet::models {
namespace {

constexpr double kFewest = 10;
constexpr std::size_t kFewestOccasions = 4;

// Captures of one animal when its chance on each occasion is `scale` times the occasion's weight.
struct Captures {
  double none = 1, once = 0, mean = 0, square = 0;

  Captures(const std::vector<double>& weights, double scale) {
    double variance = 0;
    for (const double weight : weights) {
      const double p = std::min(0.999, scale * weight);
      once = once * (1 - p) + none * p;
      none *= 1 - p;
      mean += p;
      variance += p * (1 - p);
    }
    square = variance + mean * mean;
  }
  double several() const { return std::max(1e-300, 1 - none - once); }
  double mean_of_several() const { return (mean - once) / several(); }
  double variance_of_several() const {
    return std::max(0.0, (square - once) / several() - mean_of_several() * mean_of_several());
  }
  double once_over_several() const { return once / several(); }
};

}  // namespace

SeenOnce seen_once_test(const CaptureHistories& histories) {
  SeenOnce test;
  const std::size_t k = histories.occasion_count();
  std::vector<double> weights(k, 0.0);
  double several = 0, captures = 0;
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    int times = 0;
    for (std::size_t j = 0; j < k; ++j) times += histories.was_caught(i, j) ? 1 : 0;
    if (times == 1 && !histories.was_lost(i)) ++test.seen;
    if (times < 2) continue;
    ++several;
    captures += times;
    for (std::size_t j = 0; j < k; ++j) weights[j] += histories.was_caught(i, j) ? 1 : 0;
  }
  if (k < kFewestOccasions || several < kFewest) return test;
  const double most = *std::max_element(weights.begin(), weights.end());
  for (double& weight : weights) weight /= most;
  const double mean = captures / several;
  const auto above = [&](double scale) { return Captures(weights, scale).mean_of_several() - mean; };
  constexpr double kLeast = 1e-4, kMost = 0.999;
  test.tested = true;
  double scale = kLeast;  // nearly every animal was caught just twice: chances are low
  if (above(kLeast) < 0) {
    scale = kMost;
    if (above(kMost) > 0) {
      std::uintmax_t steps = 100;
      const auto [low, high] = boost::math::tools::bisect(
          above, kLeast, kMost, boost::math::tools::eps_tolerance<double>(40), steps);
      scale = (low + high) / 2;
    }
  }
  const Captures at(weights, scale);
  test.expected = several * at.once_over_several();
  const double h = 1e-4 * scale;
  const Captures up(weights, scale + h), down(weights, scale - h);
  const double ratio_slope = (up.once_over_several() - down.once_over_several()) /
                             std::max(1e-12, up.mean_of_several() - down.mean_of_several());
  const double variance = test.expected + several * std::pow(at.once_over_several(), 2) +
                          several * at.variance_of_several() * ratio_slope * ratio_slope;
  test.z = (test.seen - test.expected) / std::sqrt(variance);
  test.p_value = boost::math::cdf(boost::math::complement(boost::math::normal(), test.z));
  return test;
}

}  // namespace evet::models
