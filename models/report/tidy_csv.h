// Every table of a report as CSV that R, Python and spreadsheets read: one row an estimate, one column a
// fact, a point in numbers, an empty cell for what is not known, "Inf" for what has no bound.
#pragma once
#include <string>

#include "models/ask/estimate_report.h"

namespace evet::models {

// The answer first ("answer" as model), then every figure of every model.
std::string estimates_csv(const EstimateReport& report);
// One row a model: parameters, minus_two_log_likelihood, aicc, difference, weight, why it is not averaged.
std::string models_csv(const EstimateReport& report);
// One row a test of an assumption.
std::string tests_csv(const EstimateReport& report);

}  // namespace evet::models
