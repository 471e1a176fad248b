#include <algorithm>
#include <boost/math/special_functions/binomial.hpp>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/heterogeneity.h"
#include "models/closed/messages.h"

namespace evet::models {
namespace {

double choose(int n, int k) {
  return k < 0 || k > n
             ? 0
             : boost::math::binomial_coefficient<double>(static_cast<unsigned>(n), static_cast<unsigned>(k));
}

// a_r with N = sum a_r f_r, from the k-th order generalised jackknife over occasions left out.
std::vector<double> coefficients(int order, int occasions) {
  std::vector<double> a;
  double factorial = 1;
  for (int i = 2; i <= order; ++i) factorial *= i;
  for (int r = 1; r <= occasions; ++r) {
    double sum = 0;
    for (int i = 0; i <= order; ++i) {
      const double kept = i >= r ? 1 - choose(occasions - r, i - r) / choose(occasions, i) : 1;
      sum += (i % 2 ? -1.0 : 1.0) * choose(order, i) * std::pow(occasions - i, order) * kept;
    }
    a.push_back(sum / factorial);
  }
  return a;
}

double weighted(const std::vector<double>& a, const std::vector<double>& f) {
  double sum = 0;
  for (std::size_t i = 0; i < f.size(); ++i) sum += a[i] * f[i];
  return sum;
}

double standard_error(const std::vector<double>& a, const std::vector<double>& f) {
  double squares = 0;
  for (std::size_t i = 0; i < f.size(); ++i) squares += a[i] * a[i] * f[i];
  return std::sqrt(std::max(0.0, squares - weighted(a, f)));
}

}  // namespace

Jackknife jackknife_orders(const ClosedCounts& counts) {
  if (counts.occasions < 2 || counts.seen < 1)
    throw InputError(messages::kItemJackknife,
                     {messages::kOccasionsAndAnimals,
                      {{"occasions", std::to_string(counts.occasions)},
                       {"animals", std::to_string(static_cast<int>(counts.seen))}}},
                     messages::kTwoAndOneNeeded);
  const std::vector<double>& f = counts.frequencies;
  const int orders = std::min(5, counts.occasions - 1);
  std::vector<std::vector<double>> a;
  Jackknife result;
  for (int order = 1; order <= orders; ++order) {
    a.push_back(coefficients(order, counts.occasions));
    result.n.push_back(weighted(a.back(), f));
    result.standard_error.push_back(standard_error(a.back(), f));
  }
  for (std::size_t k = 0; k + 1 < a.size(); ++k) {
    double squares = 0, sum = 0;
    for (std::size_t i = 0; i < f.size(); ++i) {
      const double b = a[k + 1][i] - a[k][i];
      squares += b * b * f[i];
      sum += b * f[i];
    }
    const double variance =
        counts.seen > 1 ? counts.seen / (counts.seen - 1) * (squares - sum * sum / counts.seen) : 0;
    const double t = variance > 0 ? sum / std::sqrt(variance) : 0;
    result.test.push_back(t);
    result.p_value.push_back(boost::math::erfc(std::abs(t) / std::sqrt(2.0)));
  }
  result.selected = orders;
  for (std::size_t k = 0; k < result.p_value.size(); ++k)
    if (result.p_value[k] > 0.05) {
      result.selected = static_cast<int>(k) + 1;
      break;
    }
  const auto at = static_cast<std::size_t>(result.selected - 1);
  result.n_interpolated = result.n[at];
  result.se_interpolated = result.standard_error[at];
  if (at > 0 && at < result.p_value.size()) {
    const double d = (0.05 - result.p_value[at - 1]) / (result.p_value[at] - result.p_value[at - 1]);
    std::vector<double> between;
    for (std::size_t i = 0; i < f.size(); ++i) between.push_back((1 - d) * a[at - 1][i] + d * a[at][i]);
    result.n_interpolated = weighted(between, f);
    result.se_interpolated = standard_error(between, f);
  }
  return result;
}

Estimate jackknife(const ClosedCounts& counts, double level) {
  const Jackknife orders = jackknife_orders(counts);
  const auto at = static_cast<std::size_t>(orders.selected - 1);
  Estimate estimate = estimate_of({Quantity::number});
  estimate.value = std::max(counts.seen, orders.n[at]);
  estimate.standard_error = orders.standard_error[at];
  estimate.intervals = {log_normal_interval(estimate.value, estimate.standard_error, counts.seen, level)};
  estimate.details = {{"order", orders.selected},
                      {"N_interpolated", orders.n_interpolated},
                      {"se_interpolated", orders.se_interpolated}};
  estimate.assumptions = {messages::kOwnChance};
  estimate.source = "Burnham & Overton (1978), Biometrika 65:625-633; (1979), Ecology 60:927-936";
  if (counts.lost_before.back() > 0) estimate.warnings.push_back(messages::kLossesUpsetJackknife);
  if (counts.captures() == counts.seen) {
    estimate.intervals = {{counts.seen, kInfinity, level, messages::kIntervalNoInformation}};
    estimate.warnings.push_back(messages::kLimitOfMethod);
  }
  return estimate;
}

}  // namespace evet::models
