// Every model by name: what it is for, what it can be told, when it is fitted unasked, and the function that
// fits it.
//
// The one list of models: command, card, default sets, averaged answer, nested tests, plots and
// text read it. A new estimator is its own file, its test, and one row here. Sources and
// assumptions come with its estimates.
#pragma once
#include <string>
#include <vector>

#include "models/ask/model_choice.h"
#include "models/ask/survey_data.h"
#include "models/base/remark.h"
#include "models/fit/fitted_model.h"

namespace evet::models {

struct ModelEntry {
  std::string design;  // "closed", "open", "robust"
  std::string name;
  // What it can be told: its probabilities and rates, and how each may vary.
  enum class Freedom { none, full };
  std::vector<std::string> parts = {};
  Freedom freedom = Freedom::none;
  // Fitted when nothing is said and there are so many occasions; 0: never.
  int default_from = 0, default_until = 1 << 30;
  bool numbers_by_group = false;  // gives numbers of each level of groups
  bool for_groups = false;        // fitted unasked only where there are groups
  bool for_places = false;        // fitted unasked only where captures tell of movement between places
  bool by_occasion = false;       // a parameter for each occasion, beside others that are hard to search for
  // Of a model with a likelihood: rows compare within a family; what an averaged answer gives of it; names of
  // models that hold it as a special case.
  std::string family = {};
  std::vector<Quantity> quantities = {};
  std::vector<std::string> case_of = {};
  FittedModel (*fit)(SurveyData&, const ModelChoice&, const ModelOptions&) = nullptr;
  // The variants that its bare name stands for; none: itself.
  std::vector<ModelChoice> (*variants)(SurveyData&) = nullptr;
  // Of an estimator without a likelihood.
  Remark description = {};
  std::vector<Estimate> (*estimates)(SurveyData&, double level) = nullptr;
};

const std::vector<ModelEntry>& registry();
// Null for a name that is not known.
const ModelEntry* find_model(const std::string& name);

}  // namespace evet::models
