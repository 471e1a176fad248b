#include "models/choice/information.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>

namespace evet::models {

double qaicc(double log_likelihood, double parameters, double sample_size, double overdispersion,
             bool estimated) {
  const double k = parameters + (estimated ? 1 : 0);
  if (!(sample_size > k + 1)) return kInfinity;
  return -2 * log_likelihood / std::max(1.0, overdispersion) + 2 * k +
         2 * k * (k + 1) / (sample_size - k - 1);
}

double aicc(double log_likelihood, double parameters, double sample_size) {
  return qaicc(log_likelihood, parameters, sample_size, 1, false);
}

std::vector<double> akaike_weights(const std::vector<double>& criterion) {
  double least = kInfinity, sum = 0;
  for (const double value : criterion)
    if (std::isfinite(value)) least = std::min(least, value);
  std::vector<double> weights;
  for (const double value : criterion) {
    weights.push_back(std::isfinite(value) ? std::exp((least - value) / 2) : 0);
    sum += weights.back();
  }
  if (sum > 0)
    for (double& weight : weights) weight /= sum;
  return weights;
}

Averaged average(const std::vector<double>& estimates, const std::vector<double>& standard_errors,
                 const std::vector<double>& weights) {
  Averaged mean;
  for (std::size_t i = 0; i < estimates.size(); ++i) mean.value += weights[i] * estimates[i];
  double squares = 0;
  for (std::size_t i = 0; i < estimates.size(); ++i) {
    const double square =
        standard_errors[i] * standard_errors[i] + (estimates[i] - mean.value) * (estimates[i] - mean.value);
    mean.se_sum_of_roots += weights[i] * std::sqrt(square);
    squares += weights[i] * square;
  }
  mean.se_root_of_sum = std::sqrt(squares);
  return mean;
}

RatioTest likelihood_ratio_test(double smaller_log_likelihood, double smaller_parameters,
                                double larger_log_likelihood, double larger_parameters,
                                double overdispersion) {
  RatioTest test;
  test.chi_square =
      std::max(0.0, 2 * (larger_log_likelihood - smaller_log_likelihood) / std::max(1.0, overdispersion));
  test.degrees_of_freedom = larger_parameters - smaller_parameters;
  if (test.degrees_of_freedom > 0)
    test.p_value = boost::math::cdf(
        boost::math::complement(boost::math::chi_squared(test.degrees_of_freedom), test.chi_square));
  return test;
}

}  // namespace evet::models
