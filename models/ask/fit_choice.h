// From a model as said to a row of the table: the one place that knows which function fits which name.
#pragma once
#include <memory>
#include <optional>

#include "models/ask/estimate_report.h"
#include "models/ask/model_card.h"
#include "models/closed/closed_counts.h"
#include "models/closed/schnabel.h"
#include "models/fit/fitted_model.h"
#include "models/open/m_array.h"
#include "models/robust/robust_design.h"

namespace evet::models {

// What the families need of the histories, each made when first asked for.
class SurveyData {
 public:
  explicit SurveyData(const CaptureHistories& histories) : histories_(histories) {}
  const CaptureHistories& histories() const { return histories_; }
  const ClosedCounts& closed();
  const BatchCounts& batch();
  const MArray& releases();
  const RobustCounts& robust();

 private:
  const CaptureHistories& histories_;
  std::optional<ClosedCounts> closed_;
  std::optional<BatchCounts> batch_;
  std::optional<MArray> releases_;
  std::optional<RobustCounts> robust_;
};

struct FittedRow {
  ModelRow row;
  ModelChoice choice;
  std::shared_ptr<const FittedModel> model;  // none for estimators without a likelihood
};

// Throws InputError where the histories lack what the model needs.
FittedRow fit_choice(SurveyData& data, const ModelChoice& choice, const ModelOptions& options);

// A bare name of a model with parts stands for these; other choices for themselves.
std::vector<ModelChoice> usual_variants(const ModelChoice& choice, SurveyData& data);

}  // namespace evet::models
