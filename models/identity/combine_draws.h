// One estimate out of several, each from data that were completed by a draw where they were in doubt.
//
// Rubin (1987), Multiple Imputation for Nonresponse in Surveys, sections 3.1-3.3: the mean of the draws, the
// variance within them, and that between them widened by 1 + 1/m; limits by Student's t. Numbers and rates
// are combined on the logarithm, for they are skewed, and chances on the logit scale, unless a draw lies at
// its end.
#pragma once
#include <vector>

#include "models/base/estimate_value.h"
#include "models/choice/effective_error.h"

namespace evet::models {

// `draws` are of one parameter. A draw without a finite estimate or standard error is left out;
// where more than half are, nothing is given, and where their share exceeds (1 - level) / 2 there is no upper
// bound: `undefined` and `warnings` say so. `details` have "draws", "draws without an estimate", and on that
// scale "variance within", "variance between", "degrees of freedom".
Estimate combine_draws(const std::vector<Estimate>& draws, double level = 0.95);

}  // namespace evet::models
