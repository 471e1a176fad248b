// From a model as said to a row of the table, by the registry of models.
#pragma once
#include <memory>

#include "models/ask/estimate_report.h"
#include "models/ask/model_choice.h"
#include "models/ask/survey_data.h"
#include "models/fit/fitted_model.h"

namespace evet::models {

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
