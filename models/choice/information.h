// Choosing among models and averaging over them.
//
// Burnham & Anderson (2002), Model Selection and Multimodel Inference, 2nd ed.
#pragma once
#include <vector>

#include "models/base/estimate_value.h"

namespace evet::models {

// -2 lnL + 2K + 2K(K+1)/(n-K-1); infinite when n <= K + 1.
double aicc(double log_likelihood, double parameters, double sample_size);
// -2 lnL / c + 2K + 2K(K+1)/(n-K-1), c the overdispersion factor, taken for 1 when below; K one more when c
// was estimated.
double qaicc(double log_likelihood, double parameters, double sample_size, double overdispersion,
             bool estimated = true);
// exp(-delta/2), summing to 1; a value that is not finite weighs nothing.
std::vector<double> akaike_weights(const std::vector<double>& criterion);

struct Averaged {
  double value = 0;
  double se_sum_of_roots = 0;  // sum w sqrt(var + (theta - mean)^2), section 4.3
  double se_root_of_sum = 0;   // sqrt(sum w (var + (theta - mean)^2))
};
Averaged average(const std::vector<double>& estimates, const std::vector<double>& standard_errors,
                 const std::vector<double>& weights);

struct RatioTest {
  double chi_square = 0;
  double degrees_of_freedom = 0;
  double p_value = 1;
};
// Smaller model nested in the larger; the difference is divided by the overdispersion.
RatioTest likelihood_ratio_test(double smaller_log_likelihood, double smaller_parameters,
                                double larger_log_likelihood, double larger_parameters,
                                double overdispersion = 1);

}  // namespace evet::models
