// What is asked of the module and what it answers, as plain values.
#pragma once
#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "models/base/estimate_value.h"
#include "models/base/moment.h"
#include "models/open/time_between.h"

namespace evet::models {

struct EstimateRequest {
  std::string design = "auto";           // "auto", "closed", "open" or "robust"
  std::vector<std::string> models = {};  // names from model_names(); empty: a set that suits the data
  double level = 0.95;                   // of every interval
  std::uint64_t seed = 1;                // of the starts of the optimiser and of the bootstrap
  nlohmann::json card = nullptr;         // a model card; what it states replaces the fields above
  bool plots = true;
  // Occasions more than so many days apart begin a new primary period; 0: those that stand out in the dates
  // where the design calls for periods. Periods that the histories name stay.
  double period_gap_days = 0;
  double area_m2 = 0;  // of the water that was sampled; densities follow from it; 0: not known
  std::map<std::string, double> areas_m2 =
      {};  // of ponds by name, for numbers by pond and for all of them together
};

// One row of the table of models.
struct ModelRow {
  std::string name;
  std::string description;          // the model in words
  std::vector<Estimate> estimates;  // the first is the one the model is for
  Sentences warnings;
  bool has_likelihood = false;  // the rest is set only then
  std::string family;           // rows compare, and are averaged, only within a family
  int parameters = 0;
  double sample_size = 0;
  double log_likelihood = 0;
  double aicc = 0;            // or QAICc; infinite when the data are too few for the parameters
  double delta = 0;           // aicc minus the least of its family
  double weight = 0;          // Akaike weight within its family; 0 for a row that is not averaged
  Remark not_averaged;        // why, else empty
  nlohmann::json card_entry;  // the model as a card says it
  std::vector<Parameter> not_estimable, at_boundary;
};

// A test of an assumption.
struct AssumptionTest {
  std::string name;
  double statistic = 0;
  double degrees_of_freedom = 0;  // 0 for a normal statistic
  double p_value = 1;
  Sentences says;           // what it means for the survey
  std::string code = {};    // "closure", "seen_once", "all_newly_marked", ...
  bool is_summary = false;  // a failure of it is a warning
};

// A smaller model against a larger one that holds it as a special case.
struct NestedTest {
  std::string smaller, larger;  // descriptions
  double chi_square = 0, degrees_of_freedom = 0, p_value = 1;
  Sentences says;
};

// How much more the data vary than the model by occasion allows.
struct Overdispersion {
  double used = 1;                // what standard errors and QAICc were adjusted by
  double pooled = kUndefined;     // chi-square over degrees of freedom of the components, pooled
  double bootstrap = kUndefined;  // second opinion: deviance over its mean in drawn data sets
  Sentences says;
};

struct Plot {
  std::string title;
  std::string svg;
};

struct EstimateReport {
  std::string design;  // the one used
  Sentences why;       // why this design and this set of models
  double level = 0.95;
  double animals = 0, occasions = 0, captures = 0;
  // What an index of a parameter stands for, from 1: occasions or periods.
  std::vector<Moment> moments;
  TimeBetween time;                // what survival and growth are per; open and robust designs
  std::string criterion = "AICc";  // or "QAICc"
  Overdispersion overdispersion;   // of open and robust designs
  std::vector<ModelRow> table;
  std::vector<Estimate> answer;  // what to quote: averaged over the models, or the one estimator that fits
  std::vector<AssumptionTest> tests;
  std::vector<NestedTest> nested;
  Sentences assumptions, warnings;
  std::vector<Plot> plots;
  // The occasion with captures that are not settled before which the estimate stops; empty: it uses them all.
  std::string stopped_before;
};

}  // namespace evet::models
