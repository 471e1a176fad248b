// A report as JSON.
#pragma once
#include "models/ask/estimate_report.h"

namespace evet::models {

// One document. An infinite number is written "inf", an undefined one null with its reason in "undefined".
nlohmann::json to_json(const EstimateReport& report);
nlohmann::json to_json(const Estimate& estimate);

}  // namespace evet::models
