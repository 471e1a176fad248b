// A survey to be planned, as it is asked for in words and told in JSON: command and page alike.
#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "models/capture_histories.h"
#include "models/plan/survey_plan.h"

namespace evet {

// What nights that were worked say of numbers and of the chance of a catch, under the model that plans use; of those
// that are not `given`. Errors: bad_input naming `catalogue` where they give no estimate; models::InputError.
struct Given {
  bool animals = false, chance = false;
};
void take_from_nights(const models::CaptureHistories& histories, const std::string& catalogue, Given given,
                      models::PlanRequest& plan);

// {"animals", "chance", "wanted", "rows": [{"nights", "traps", "chance", "captures", "ever_caught", "relative_error",
// "relative_bias", "coverage", "no_estimate", "large_sample_error", "enough"}], "enough", "says",
// "assumptions", "source"}
nlohmann::json to_json(const models::SurveyPlan& plan, const models::PlanRequest& request);

}  // namespace evet
