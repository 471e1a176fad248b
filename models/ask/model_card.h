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
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "models/capture_histories.h"
#include "models/fit/predictor.h"

namespace evet::models {

// How one probability or rate of a model varies, as said.
struct PartChoice {
  std::vector<std::string> varies_by;  // "occasion" ("period" in the robust design) or names of groups
  bool each_combination = false;       // a value of its own for every occasion of every group
  std::vector<std::string> linear_in;  // covariates of occasions or of animals
  bool after_capture = false;          // closed models: shifted once an animal was caught

  bool by(const std::string& what) const;
  bool constant() const;
};

struct ModelChoice {
  std::string name;
  std::map<std::string, PartChoice> parts;
  std::string emigration = "none";  // robust: "none", "random", "random by period", "depends on before"
  bool ends_certain = false;        // super-population: everything present is caught first and last
};

struct ModelCard {
  std::string design = "auto";
  std::vector<ModelChoice> models;  // empty: a set that suits the data
  std::optional<double> level;
  std::optional<std::uint64_t> seed;
  std::optional<double> overdispersion;  // given instead of measured
  std::string survival_per = "auto";     // open and robust: interval, day, week, month or year
  int bootstrap = 0;                     // draws for a second interval of N from the best closed model
};

// What a model can be told, for checking cards and for the documentation.
struct ModelKind {
  std::string design;
  std::string name;
  std::vector<std::string> parts;
  enum class Freedom { none, occasion, full } freedom;  // of its parts
};
const std::vector<ModelKind>& model_kinds();

// Throws InputError naming every wrong field with what would be right.
ModelCard read_model_card(const nlohmann::json& card);
nlohmann::json to_json(const ModelChoice& choice);

// The terms of a part for these histories: covariates sorted into those of occasions and those of animals.
// Throws InputError for a name that the histories lack.
Terms terms_of(const PartChoice& part, const CaptureHistories& histories);

}  // namespace evet::models
