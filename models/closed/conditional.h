// Closed models conditional on being caught at least once, with covariates of animals, groups and occasions.
//
// Huggins (1989), Biometrika 76:133-140; (1991), Biometrics 47:725-732; Alho (1990), Biometrics 46:623-635.
#pragma once
#include "models/fit/fitted_model.h"
#include "models/fit/predictor.h"

namespace evet::models {

// Estimates: N = sum over animals of 1 / p*, p* the chance of being caught at least once, with variance
// sum (1 - p*) / p*^2 plus the delta term; for each level of the groups used and of those
// that `numbers_by` names its own N ("N: sex male"); then
// the capture probabilities that do not depend on animals, or else the slopes. Details of N: "p_star" where
// it is the same for all. The log-likelihood is that of the histories given capture; it compares among
// conditional models only.
FittedModel fit_conditional(const CaptureHistories& histories, const Terms& capture,
                            const ModelOptions& options = {},
                            const std::vector<std::string>& numbers_by = {});

}  // namespace evet::models
