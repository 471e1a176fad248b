// A plain way to say a model: named choices and lists of covariates, as JSON.
//
//   {"design": "open", "level": 0.95, "overdispersion": 1.4, "survival_per": "year",
//    "models": ["jolly-seber",
//               {"model": "survival",
//                "survival": {"varies_by": ["occasion", "sex"], "each_combination": true},
//                "recapture": {"linear_in": ["effort"]}}]}
//
// A name alone stands for the usual variants of that model. A part left out is constant. README.md lists the
// names, their parts and what each part may hold.
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "models/ask/model_choice.h"

namespace evet::models {

struct ModelCard {
  std::string design = "auto";
  std::vector<ModelChoice> models;  // empty: a set that suits the data
  std::optional<double> level;
  std::optional<std::uint64_t> seed;
  std::optional<double> overdispersion;  // given instead of measured
  std::string survival_per = "auto";     // open and robust: interval, day, week, month or year
  int bootstrap = 0;                     // draws for a second interval of N from the best closed model
};

// Throws InputError naming every wrong field with what would be right.
ModelCard read_model_card(const nlohmann::json& card);

}  // namespace evet::models
