#include "tools/numbers/planned_survey.h"

#include <cmath>

#include "matcher/base/error.h"
#include "models/estimate.h"
#include "tools/numbers/messages.h"

namespace evet {

void take_from_nights(const models::CaptureHistories& histories, const std::string& catalogue, Given given,
                      models::PlanRequest& plan) {
  if (given.animals && given.chance) return;
  models::EstimateRequest request;
  request.design = "closed", request.models = {"constant"}, request.plots = false;
  const models::EstimateReport report = models::estimate(histories, request);
  const auto& estimates = report.table.front().estimates;
  const auto find = [&](models::Quantity quantity) -> double {
    for (const models::Estimate& one : estimates)
      if (one.what.quantity == quantity && std::isfinite(one.value)) return one.value;
    throw Error(ErrorKind::bad_input, catalogue, messages::kNoEstimateToPlanFrom,
                messages::kSayAnimalsAndChance);
  };
  if (!given.animals) plan.animals = find(models::Quantity::number);
  if (!given.chance) plan.chance = find(models::Quantity::capture);
}

nlohmann::json to_json(const models::SurveyPlan& plan, const models::PlanRequest& request) {
  nlohmann::json rows = nlohmann::json::array();
  const auto number = [](double x) { return std::isfinite(x) ? nlohmann::json(x) : nlohmann::json(nullptr); };
  for (const models::PlanRow& row : plan.rows)
    rows.push_back({{"nights", row.nights},
                    {"traps", row.traps},
                    {"chance", row.chance},
                    {"captures", row.captures},
                    {"ever_caught", row.seen},
                    {"relative_error", number(row.relative_error)},
                    {"relative_bias", number(row.relative_bias)},
                    {"coverage", number(row.coverage)},
                    {"no_estimate", row.no_estimate},
                    {"large_sample_error", number(row.large_sample)},
                    {"enough", row.reaches}});
  return {{"animals", request.animals},
          {"chance", request.chance},
          {"wanted", request.wanted},
          {"rows", rows},
          {"enough", plan.enough ? nlohmann::json(*plan.enough) : nlohmann::json(nullptr)},
          {"says", plan.says.words()},
          {"assumptions", models::each_in_words(plan.assumptions)},
          {"source", plan.source}};
}

}  // namespace evet
