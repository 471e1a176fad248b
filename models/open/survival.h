// Survival and recapture given release: the Cormack-Jolly-Seber model.
//
// Cormack (1964), Biometrika 51:429-438; Jolly (1965); Seber (1965); Lebreton, Burnham, Clobert & Anderson
// (1992), Ecol. Monogr. 62:67-118. Both probabilities may differ by occasion, group, group and occasion, and
// linearly with covariates on the logit scale. Survival i is from occasion i to i + 1 and uses occasion
// covariates of i; recapture i is on occasion i, from 2. The log-likelihood is that of the histories given
// first release; the sample size for AICc is the number of releases.
#pragma once
#include "models/fit/fitted_model.h"
#include "models/open/m_array.h"

namespace evet::models {

// Sum over releases of ln Pr(next capture), for eta of survival (k - 1 columns) and of recapture (k - 1
// columns, the first for occasion 2). Slopes, where asked for, are d / d eta.
double release_log_likelihood(const MArray& array, const Eigen::VectorXd& survival_eta,
                              const Eigen::VectorXd& recapture_eta, Eigen::VectorXd* survival_slope,
                              Eigen::VectorXd* recapture_slope);
// Chances that an animal let go on i is next caught on j (0-based, j > i; as in MArray::next), from survival
// and recapture of each interval.
Eigen::MatrixXd release_cells(const std::vector<double>& survival, const std::vector<double>& recapture);
// The log-likelihood with m_ij / R_i for the chances: the best any model could do.
double saturated_log_likelihood(const MArray& array);

// Estimates: survival, then recapture, one for each occasion (or one when constant) of each combination of
// groups; with animal covariates at their mean, and the slopes after them. The product of the last survival
// and recapture is given as "survival x recapture, last" when the two cannot be told apart.
FittedModel fit_survival(const CaptureHistories& histories, const Terms& survival, const Terms& recapture,
                         const ModelOptions& options = {});
// The same from a release table, without groups or covariates.
FittedModel fit_survival(const MArray& array, bool survival_by_occasion, bool recapture_by_occasion,
                         const ModelOptions& options = {});

}  // namespace evet::models
