// The front door of the module: capture histories in, a report out that a surveyor can read and a reviewer
// can check.
//
// With no model named, a set that suits the data is fitted and the report says which and why. Nothing is read
// from files or globals; the same request on the same histories gives the same bytes. How to say a model:
// README.md in this folder and ask/model_card.h.
#pragma once
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "models/ask/estimate_report.h"
#include "models/capture_histories.h"
#include "models/report/report_json.h"

namespace evet::models {

// Names that a request may hold for a design ("closed", "open", "robust").
std::vector<std::string> model_names(const std::string& design);
// Throws InputError for histories that do not check(), an unknown design, model or level, or a card that does
// not hold; its text then names every wrong field.
EstimateReport estimate(const CaptureHistories& histories, const EstimateRequest& request = {});

}  // namespace evet::models
