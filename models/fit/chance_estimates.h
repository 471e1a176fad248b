// Estimates of the chances of a fitted model that follow a linear predictor: one for each occasion of each level
// of the groups, then the slopes.
#pragma once
#include "models/fit/fitted_model.h"
#include "models/fit/predictor.h"

namespace evet::models {

// A probability by its linear predictor: standard error by the delta method, interval on the logit scale.
Estimate chance_estimate(const Parameter& what, const Fit& fit,
                         const std::function<double(const Eigen::VectorXd&)>& eta, double level);

// Appended to the model's estimates; columns of the predictor are the indices from + 1, from + 2, ... of `what`.
// Covariates of animals are held at their means, which stand in Estimate::at.
void add_chance_estimates(FittedModel& fitted, Quantity what, const Terms& terms, const Predictor& predictor,
                          const CaptureHistories& histories, const Units& units, std::size_t from,
                          const ModelOptions& options);

}  // namespace evet::models
