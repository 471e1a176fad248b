// The pictures of a report: estimates by occasion and by model, the profile of the likelihood, residuals.
#pragma once
#include <vector>

#include "models/ask/estimate_report.h"
#include "models/ask/fit_choice.h"

namespace evet::models {

std::vector<Plot> make_plots(const EstimateReport& report, const std::vector<FittedRow>& rows,
                             SurveyData& data);

}  // namespace evet::models
