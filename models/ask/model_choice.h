// A model as said: its name and how each of its parts varies.
#pragma once
#include <map>
#include <nlohmann/json.hpp>
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
  std::vector<std::string> numbers_by = {};  // groups whose numbers are given though no part varies by them
};

nlohmann::json to_json(const ModelChoice& choice);

// The terms of a part for these histories: covariates sorted into those of occasions and those of animals.
// Throws InputError for a name that the histories lack.
Terms terms_of(const PartChoice& part, const CaptureHistories& histories);

}  // namespace evet::models
