// Which design and which models suit a set of histories when the request names none.
#pragma once
#include <string>
#include <vector>

#include "models/ask/fit_choice.h"
#include "models/periods.h"

namespace evet::models {

struct Suited {
  std::string design;
  Message why;
};
Suited suited_design(const CaptureHistories& histories);

struct DefaultSet {
  std::vector<ModelChoice> models;
  Sentences why;
};
DefaultSet default_set(const std::string& design, SurveyData& data);

}  // namespace evet::models
