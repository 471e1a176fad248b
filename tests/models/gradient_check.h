// A likelihood's exact gradient, held against differences a little away from its start.
#pragma once
#include <gtest/gtest.h>

#include <cmath>

#include "models/fit/fitted_model.h"

namespace evet::models::testing {

// `away`: how far from the start, on the scale of the coordinates.
inline void expect_gradient_of_differences(const FittedModel& model, double away, double tolerance = 1e-6) {
  Eigen::VectorXd x = model.likelihood.start, exact;
  for (Eigen::Index i = 0; i < x.size(); ++i) x[i] += away * std::sin(1.0 + static_cast<double>(i));
  model.likelihood.minus_log_likelihood(x, &exact);
  const Eigen::VectorXd differences = gradient_by_differences(model.likelihood.minus_log_likelihood, x);
  EXPECT_LT((exact - differences).cwiseAbs().maxCoeff(), tolerance * (1 + exact.cwiseAbs().maxCoeff()))
      << model.name << ": " << model.description;
}

}  // namespace evet::models::testing
