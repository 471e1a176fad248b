// The front door of the module: capture histories in, a report out that a surveyor can read and a reviewer
// can check.
//
// With no model named, a set that suits the data is fitted and the report says which and why. Nothing is read
// from files or globals; the same request on the same histories gives the same bytes.
#pragma once
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "models/base/estimate_value.h"
#include "models/capture_histories.h"

namespace evet::models {

struct EstimateRequest {
  std::string design = "auto";           // "auto", "closed", "open" or "robust"
  std::vector<std::string> models = {};  // names from model_names(); empty: a set that suits the data
  double level = 0.95;                   // of every interval
  std::uint64_t seed = 1;                // of the starts of the optimiser and of the bootstrap
};

// One row of the table of models.
struct ModelRow {
  std::string name;
  std::string description;          // the model in words
  std::vector<Estimate> estimates;  // the first is the one the model is for
  std::vector<std::string> warnings;
  bool has_likelihood = false;  // the next five are set only then
  int parameters = 0;
  double log_likelihood = 0;
  double aicc = 0;    // or QAICc; infinite when the data are too few for the parameters
  double delta = 0;   // aicc minus the least of the table
  double weight = 0;  // Akaike weight; 0 for a row that is not averaged
};

// A test of an assumption.
struct AssumptionTest {
  std::string name;
  double statistic = 0;
  double degrees_of_freedom = 0;  // 0 for a normal statistic
  double p_value = 1;
  std::string says;  // what it means for the survey
};

struct Plot {
  std::string title;
  std::string svg;
};

struct EstimateReport {
  std::string design;  // the one used
  std::string why;     // why this design and this set of models
  std::vector<ModelRow> table;
  std::vector<Estimate> answer;  // what to quote: averaged over the models, or the one estimator that fits
  std::vector<AssumptionTest> tests;
  std::vector<std::string> assumptions;
  std::vector<std::string> warnings;
  std::vector<Plot> plots;
};

// Names that a request may hold for a design ("closed", "open", "robust").
std::vector<std::string> model_names(const std::string& design);
// Throws InputError for histories that do not check(), an unknown design, model or level.
EstimateReport estimate(const CaptureHistories& histories, const EstimateRequest& request = {});
// One document. An infinite number is written "inf", an undefined one null with its reason in "undefined".
nlohmann::json to_json(const EstimateReport& report);

}  // namespace evet::models
