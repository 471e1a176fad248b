#include "models/closed/closure_test.h"

#include <boost/math/special_functions/erf.hpp>
#include <cmath>

#include "models/closed/log_choose.h"

namespace evet::models {
namespace {

struct Moments {
  double mean = 0, variance = 0;
};

// Span of k occasions chosen from t: Pr(span = d) = (t - d) C(d - 1, k - 2) / C(t, k).
Moments span_moments(int k, int t) {
  double mean = 0, square = 0;
  for (int d = k - 1; d < t; ++d) {
    const double p = (t - d) * std::exp(log_choose(d - 1, k - 2) - log_choose(t, k));
    mean += p * d;
    square += p * d * d;
  }
  return {mean, square - mean * mean};
}

}  // namespace

ClosureTest closure_test(const CaptureHistories& histories) {
  histories.check();
  const int t = static_cast<int>(histories.occasion_count());
  std::vector<Moments> moments(static_cast<std::size_t>(t) + 1);
  for (int k = 2; k < t; ++k) moments[static_cast<std::size_t>(k)] = span_moments(k, t);
  ClosureTest test;
  double excess = 0, variance = 0;
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    if (histories.was_lost(i)) continue;
    int first = -1, last = -1, captures = 0;
    for (int j = 0; j < t; ++j) {
      if (!histories.was_caught(i, static_cast<std::size_t>(j))) continue;
      if (first < 0) first = j;
      last = j;
      ++captures;
    }
    if (captures < 2 || captures >= t) continue;
    ++test.animals;
    excess += last - first - moments[static_cast<std::size_t>(captures)].mean;
    variance += moments[static_cast<std::size_t>(captures)].variance;
  }
  if (variance > 1e-12) {
    test.z = excess / std::sqrt(variance);
    test.p_value = 0.5 * boost::math::erfc(-test.z / std::sqrt(2.0));
  }
  return test;
}

}  // namespace evet::models
