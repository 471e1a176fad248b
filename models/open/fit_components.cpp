#include "models/open/fit_components.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>

#include "models/base/random.h"
#include "models/fit/tape.h"
#include "models/open/messages.h"
#include "models/open/survival.h"

namespace evet::models {
namespace {

double total(const std::vector<double>& row) {
  double sum = 0;
  for (const double count : row) sum += count;
  return sum;
}

// Neighbouring columns taken together from the right until the smaller row expects at least two in each.
ChiSquare pooled(const std::vector<double>& upper, const std::vector<double>& lower) {
  const double smaller = std::min(total(upper), total(lower)), all = total(upper) + total(lower);
  if (smaller == 0) return {};
  std::vector<double> up, low;
  double a = 0, b = 0;
  for (std::size_t j = upper.size(); j-- > 0;) {
    a += upper[j];
    b += lower[j];
    if ((a + b) * smaller / all < 2) continue;
    up.push_back(a);
    low.push_back(b);
    a = b = 0;
  }
  if (!up.empty()) {
    up.back() += a;
    low.back() += b;
  }
  return up.size() < 2 ? ChiSquare{} : pearson(up, low);
}

Component component(const std::string& name, const std::vector<double>& upper,
                    const std::vector<double>& lower) {
  const double later_up = total(upper) - upper[0], later_low = total(lower) - lower[0];
  return {name,
          upper,
          lower,
          pearson(upper, lower),
          pearson({upper[0], later_up}, {lower[0], later_low}),
          pooled(upper, lower)};
}

// A release table drawn from a fitted one.
MArray drawn(const MArray& array, const FittedModel& model, Random& random) {
  MArray copy = array;
  const Eigen::Index n = array.released.size();
  for (Eigen::Index i = 0; i < n; ++i) {
    copy.next.row(i).setZero();
    for (int animal = 0; animal < static_cast<int>(array.released[i]); ++animal)
      for (Eigen::Index j = i; j < n && random.chance(logistic(model.fit.theta[j])); ++j)
        if (random.chance(logistic(model.fit.theta[n + j]))) {
          ++copy.next(i, j + 1);
          break;
        }
  }
  return copy;
}

}  // namespace

double ChiSquare::p_value() const {
  if (!(degrees_of_freedom > 0)) return 1;
  return boost::math::cdf(boost::math::complement(boost::math::chi_squared(degrees_of_freedom), chi_square));
}

ChiSquare pearson(const std::vector<double>& upper, const std::vector<double>& lower) {
  const double up = total(upper), low = total(lower), all = up + low;
  ChiSquare result;
  if (up == 0 || low == 0) return result;
  double columns = 0;
  for (std::size_t j = 0; j < upper.size(); ++j) {
    const double column = upper[j] + lower[j];
    if (column == 0) continue;
    ++columns;
    for (const auto& [count, row] : {std::pair{upper[j], up}, {lower[j], low}}) {
      const double expected = row * column / all;
      result.chi_square += (count - expected) * (count - expected) / expected;
    }
  }
  result.degrees_of_freedom = columns - 1;
  return result;
}

std::vector<Component> missed_components(const MArray& array) {
  std::vector<Component> components;
  const Eigen::Index k = array.occasions();
  for (Eigen::Index i = 1; i + 2 < k; ++i) {
    std::vector<double> upper, lower;
    for (Eigen::Index j = i + 1; j < k; ++j) {
      upper.push_back(array.next(i, j));
      lower.push_back(array.next.col(j).head(i).sum());
    }
    components.push_back(
        component(Message(messages::kTestCaughtOrMissedAt, {{"occasion", std::to_string(i + 1)}}).words(),
                  upper, lower));
  }
  return components;
}

std::vector<Component> newly_marked_components(const CaptureHistories& histories) {
  const std::size_t k = histories.occasion_count();
  std::vector<Component> components;
  for (std::size_t i = 1; i + 1 < k; ++i) {
    std::vector<double> newly(2), before(2);
    for (std::size_t a = 0; a < histories.animal_count(); ++a) {
      if (!histories.was_caught(a, i)) continue;
      bool earlier = false, later = false;
      for (std::size_t j = 0; j < k; ++j)
        if (histories.was_caught(a, j)) (j < i ? earlier : later) |= j != i;
      if (!later && histories.was_lost(a)) continue;
      ++(earlier ? before : newly)[later ? 0 : 1];
    }
    components.push_back(component(
        Message(messages::kTestNewlyMarkedAt, {{"occasion", std::to_string(i + 1)}}).words(), newly, before));
  }
  return components;
}

FitTest fit_test(const CaptureHistories& histories) {
  FitTest test;
  test.missed = missed_components(m_array(histories));
  test.newly_marked = newly_marked_components(histories);
  for (const auto* components : {&test.missed, &test.newly_marked})
    for (const Component& part : *components) {
      test.total.chi_square += part.pooled.chi_square;
      test.total.degrees_of_freedom += part.pooled.degrees_of_freedom;
    }
  if (test.total.degrees_of_freedom > 0)
    test.overdispersion = std::max(1.0, test.total.chi_square / test.total.degrees_of_freedom);
  return test;
}

double bootstrap_overdispersion(const MArray& array, int replicates, std::uint64_t seed) {
  const auto deviance = [](const MArray& table, const FittedModel& model) {
    return 2 * (saturated_log_likelihood(table) - model.log_likelihood);
  };
  const ModelOptions quick{0.95, seed, false};
  const FittedModel observed = fit_survival(array, true, true, quick);
  Random random(seed);
  double sum = 0;
  for (int b = 0; b < replicates; ++b) {
    const MArray copy = drawn(array, observed, random);
    sum += std::max(0.0, deviance(copy, fit_survival(copy, true, true, quick)));
  }
  const double mean = sum / std::max(1, replicates);
  return mean > 1e-6 ? std::max(1.0, deviance(array, observed) / mean) : 1;
}

}  // namespace evet::models
