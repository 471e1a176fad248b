// The answer in one or two sentences, before any table.
#pragma once
#include <string>

#include "models/ask/estimate_report.h"

namespace evet::models {

// "About 24 animals, likely 18 to 49." Numbers are rounded as far as the interval allows.
std::string plain_answer(const EstimateReport& report);

}  // namespace evet::models
