#include "models/ask/model_choice.h"

#include <algorithm>

#include "models/ask/messages.h"
#include "models/base/input_error.h"

namespace evet::models {

using nlohmann::json;

bool PartChoice::by(const std::string& what) const {
  return std::find(varies_by.begin(), varies_by.end(), what) != varies_by.end();
}
bool PartChoice::constant() const {
  return varies_by.empty() && linear_in.empty() && !after_capture;
}

json to_json(const ModelChoice& choice) {
  json out = {{"model", choice.name}};
  for (const auto& [name, part] : choice.parts) {
    json& at = out[name];
    if (part.constant()) {
      at = "constant";
      continue;
    }
    at = json::object();
    if (!part.varies_by.empty()) at["varies_by"] = part.varies_by;
    if (part.each_combination) at["each_combination"] = true;
    if (!part.linear_in.empty()) at["linear_in"] = part.linear_in;
    if (part.after_capture) at["after_capture"] = true;
  }
  if (choice.name == "robust") out["emigration"] = choice.emigration;
  if (choice.ends_certain) out["ends_certain"] = true;
  if (!choice.numbers_by.empty()) out["numbers_by"] = choice.numbers_by;
  return out;
}

Terms terms_of(const PartChoice& part, const CaptureHistories& histories) {
  Terms terms;
  for (const std::string& name : part.varies_by) {
    if (name == "occasion")
      terms.occasion = true;
    else
      terms.groups.push_back(name);
  }
  for (const std::string& name : part.linear_in)
    (histories.occasion_covariates.contains(name) ? terms.occasion_covariates : terms.covariates)
        .push_back(name);
  if (part.each_combination) {
    terms.group_by_occasion = true;
    terms.occasion = false;
  }
  terms.response = part.after_capture;
  for (const std::string& name : terms.covariates)
    if (!histories.covariates.contains(name)) {
      std::string known;
      for (const auto* names : {&histories.occasion_covariates, &histories.covariates})
        for (const auto& [one, values] : *names) known += (known.empty() ? "" : ", ") + one;
      const Message right = known.empty() ? Message(messages::kNoCovariates)
                                          : Message(messages::kUseOneOf, {{"models", known}});
      throw InputError("linear_in '" + name + "'", messages::kNoColumnOfNumbers, right);
    }
  check_terms(terms, histories);
  return terms;
}

}  // namespace evet::models
