// Tests of what the models rest on, each with what it means for the survey.
#pragma once
#include <vector>

#include "models/ask/estimate_report.h"
#include "models/ask/fit_choice.h"
#include "models/open/fit_components.h"

namespace evet::models {

std::vector<AssumptionTest> closed_tests(const CaptureHistories& histories);
// The components of the goodness of fit, those that the data can test, then their sums.
std::vector<AssumptionTest> open_tests(const FitTest& fit);
// From all components; or with `newly_marked_only` from those that hold also where animals stay away for a
// time and come back: an animal just caught was there, whatever it did before.
Overdispersion measured_overdispersion(const FitTest& fit, const MArray& releases, bool newly_marked_only,
                                       std::uint64_t seed);

// Likelihood-ratio tests between rows of which one is a case of the other.
std::vector<NestedTest> nested_tests(const std::vector<FittedRow>& rows, double overdispersion);

}  // namespace evet::models
