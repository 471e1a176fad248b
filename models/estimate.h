// The front door of the module: capture histories in, a report out that a surveyor can read and a reviewer
// can check.
//
// With no model named, a set that suits the data is fitted and the report says which and why. Nothing is read
// from files or globals; the same request on the same histories gives the same bytes. How to say a model:
// README.md in this folder and ask/model_card.h.
#pragma once
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "models/base/estimate_value.h"
#include "models/capture_histories.h"
#include "models/open/time_between.h"

namespace evet::models {

struct EstimateRequest {
  std::string design = "auto";           // "auto", "closed", "open" or "robust"
  std::vector<std::string> models = {};  // names from model_names(); empty: a set that suits the data
  double level = 0.95;                   // of every interval
  std::uint64_t seed = 1;                // of the starts of the optimiser and of the bootstrap
  nlohmann::json card = nullptr;         // a model card; what it states replaces the fields above
  bool plots = true;
};

// One row of the table of models.
struct ModelRow {
  std::string name;
  std::string description;          // the model in words
  std::vector<Estimate> estimates;  // the first is the one the model is for
  std::vector<std::string> warnings;
  bool has_likelihood = false;  // the rest is set only then
  std::string family;           // rows compare, and are averaged, only within a family
  int parameters = 0;
  double sample_size = 0;
  double log_likelihood = 0;
  double aicc = 0;            // or QAICc; infinite when the data are too few for the parameters
  double delta = 0;           // aicc minus the least of its family
  double weight = 0;          // Akaike weight within its family; 0 for a row that is not averaged
  std::string not_averaged;   // why, else empty
  nlohmann::json card_entry;  // the model as a card says it
  std::vector<std::string> not_estimable, at_boundary;  // parameters by name
};

// A test of an assumption.
struct AssumptionTest {
  std::string name;
  double statistic = 0;
  double degrees_of_freedom = 0;  // 0 for a normal statistic
  double p_value = 1;
  std::string says;  // what it means for the survey
};

// A smaller model against a larger one that holds it as a special case.
struct NestedTest {
  std::string smaller, larger;  // descriptions
  double chi_square = 0, degrees_of_freedom = 0, p_value = 1;
  std::string says;
};

// How much more the data vary than the model by occasion allows.
struct Overdispersion {
  double used = 1;                // what standard errors and QAICc were adjusted by
  double pooled = kUndefined;     // chi-square over degrees of freedom of the components, pooled
  double bootstrap = kUndefined;  // second opinion: deviance over its mean in drawn data sets
  std::string says;
};

struct Plot {
  std::string title;
  std::string svg;
};

struct EstimateReport {
  std::string design;  // the one used
  std::string why;     // why this design and this set of models
  double level = 0.95;
  double animals = 0, occasions = 0, captures = 0;
  TimeBetween time;                // what survival and growth are per; open and robust designs
  std::string criterion = "AICc";  // or "QAICc"
  Overdispersion overdispersion;   // of open and robust designs
  std::vector<ModelRow> table;
  std::vector<Estimate> answer;  // what to quote: averaged over the models, or the one estimator that fits
  std::vector<AssumptionTest> tests;
  std::vector<NestedTest> nested;
  std::vector<std::string> assumptions;
  std::vector<std::string> warnings;
  std::vector<Plot> plots;
};

// Names that a request may hold for a design ("closed", "open", "robust").
std::vector<std::string> model_names(const std::string& design);
// Throws InputError for histories that do not check(), an unknown design, model or level, or a card that does
// not hold; its text then names every wrong field.
EstimateReport estimate(const CaptureHistories& histories, const EstimateRequest& request = {});
// One document. An infinite number is written "inf", an undefined one null with its reason in "undefined".
nlohmann::json to_json(const EstimateReport& report);

}  // namespace evet::models
