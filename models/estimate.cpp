#include "models/estimate.h"

#include <algorithm>

#include "models/base/input_error.h"
#include "models/closed/schnabel.h"
#include "models/closed/two_sample.h"

namespace evet::models {
namespace {

ModelRow fit_closed(const std::string& name, const CaptureHistories& histories, double level) {
  ModelRow row;
  row.name = name;
  if (name == "lincoln-petersen") {
    row.description = "two samples, ratio estimate";
    row.estimates = {lincoln_petersen(two_sample_counts(histories), level)};
  } else if (name == "chapman") {
    row.description = "two samples, ratio estimate corrected for bias";
    row.estimates = {chapman(two_sample_counts(histories), level)};
  } else if (name == "bailey") {
    row.description = "two samples, the second with replacement";
    row.estimates = {bailey(two_sample_counts(histories), level)};
  } else if (name == "schnabel") {
    row.description = "several samples, weighted mean of two-sample estimates";
    row.estimates = {schnabel(batch_counts(histories), level)};
  } else {
    row.description = "several samples, regression through the origin";
    row.estimates = {schumacher_eschmeyer(batch_counts(histories), level)};
  }
  return row;
}

}  // namespace

std::vector<std::string> model_names(const std::string& design) {
  if (design == "closed")
    return {"lincoln-petersen", "chapman", "bailey", "schnabel", "schumacher-eschmeyer"};
  if (design == "open" || design == "robust") return {};
  throw InputError("design '" + design + "'", "it is not known", "use auto, closed, open or robust");
}

EstimateReport estimate(const CaptureHistories& histories, const EstimateRequest& request) {
  histories.check();
  normal_point(request.level);
  EstimateReport report;
  report.design = request.design == "auto" ? "closed" : request.design;
  const std::vector<std::string> known = model_names(report.design);
  std::vector<std::string> chosen = request.models;
  if (chosen.empty()) {
    const bool two = histories.occasion_count() == 2;
    chosen = two ? std::vector<std::string>{"chapman"}
                 : std::vector<std::string>{"schnabel", "schumacher-eschmeyer"};
    report.why = two ? "Two occasions: the two-sample estimate." : "Several occasions: the batch estimates.";
  }
  for (const std::string& name : chosen) {
    if (std::find(known.begin(), known.end(), name) == known.end()) {
      std::string right = "use";
      for (const std::string& other : known) right += " " + other;
      throw InputError("model '" + name + "'", "it is not known for a " + report.design + " population",
                       right);
    }
    report.table.push_back(fit_closed(name, histories, request.level));
  }
  report.answer = {report.table.front().estimates.front()};
  report.assumptions = report.answer.front().assumptions;
  report.warnings = report.answer.front().warnings;
  return report;
}

}  // namespace evet::models
