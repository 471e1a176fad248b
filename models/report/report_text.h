// The report as plain text for a terminal: answer, table, tests, assumptions, warnings. Plots are left out.
#pragma once
#include <string>

#include "models/ask/estimate_report.h"

namespace evet::models {

// Lines of at most `width` characters where words allow it. Ends with a line feed.
// `headline` stands first instead of the report's own plain answer, where it is not empty.
std::string to_text(const EstimateReport& report, std::size_t width = 100, const std::string& headline = {});

}  // namespace evet::models
