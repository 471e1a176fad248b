// A model with its fit: one row of the table of models, whatever the family.
#pragma once
#include <string>
#include <vector>

#include "models/fit/likelihood.h"

namespace evet::models {

struct FittedModel {
  std::string name;         // "closed.occasion", ...
  std::string description;  // in words
  Likelihood likelihood;
  Fit fit;
  int parameters = 0;               // estimable ones
  double log_likelihood = 0;        // without constants, comparable within the family on the same data
  double sample_size = 0;           // for AICc
  std::vector<Estimate> estimates;  // the first is the one the model is for
};

struct ModelOptions {
  double level = 0.95;
  std::uint64_t seed = 1;
  bool profile = true;        // profile-likelihood intervals besides the quick ones
  double overdispersion = 1;  // variances are multiplied by it, drops of the profile divided
  // Open and robust models: time between occasions (or primary periods) in the unit that survival, growth and
  // seniority are per; empty: one each.
  std::vector<double> interval_lengths = {};
};

}  // namespace evet::models
