// What a surveyor should be told before the figures are used.
#pragma once
#include <string>
#include <vector>

#include "models/ask/estimate_report.h"
#include "models/ask/fit_choice.h"

namespace evet::models {

// Too few recaptures, thin occasions, failing tests, estimates at the end of their range or not estimable,
// models that disagree. Each sentence once.
Sentences report_warnings(const EstimateReport& report, SurveyData& data);
// Assumptions of the models that carry the answer, each sentence once.
Sentences report_assumptions(const EstimateReport& report);

}  // namespace evet::models
