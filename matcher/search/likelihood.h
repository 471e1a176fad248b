// From measures to a log-likelihood ratio, same individual against different.
//
// A logistic model, linear in the measures, fitted with a ridge on pairs of known identity (see
// models/weights/matching.md); with equal weight on both kinds its log odds are the log-likelihood ratio. No
// measure may count the wrong way round (better agreement never lowers the ratio), so that the model stays
// sensible on patterns unlike those it was fitted on; products and squares would not. The
// ratio is capped by the data it was learned from: from n different-animal pairs no probability under 3/n is
// claimed (the rule of three), and likewise for same-animal pairs.
// Method: Brümmer & du Preez 2006, Computer Speech and Language 20:230.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "matcher/search/evidence.h"

namespace evet {

// One logistic model over standardised inputs.
struct LogisticModel {
  std::vector<double> mean, spread;  // of the inputs
  std::vector<double> weights;       // bias, then inputs; natural-log units
  // Clamped to four spreads: beyond them nothing was learned.
  std::vector<double> standardised(const std::vector<double>& inputs) const;
  double log_odds(const std::vector<double>& inputs) const;
};

struct MatchingModel {
  LogisticModel pair;       // over Measures: one photo against one photo
  LogisticModel code_only;  // over {code distance, alikeness}: pairs that were not aligned
  double highest = 0;       // caps, natural log
  double lowest = 0;
  double llr(const Measures& measures) const;
  double llr_of_code(double code_distance, double alikeness) const;
  // Of one capture against one individual: the mean of its photos' best ratios and, where they could be
  // joined (join_patterns.h), the best of the joined pattern at equal weight; less the logarithm of how many
  // photos of the individual each was tried on, since each try gave chance another (the union bound). The
  // individual's other photos share the luck of the best and add nothing that could be counted on.
  double llr_of_capture(const std::vector<double>& best_of_photos, std::optional<double> best_of_joined,
                        size_t tries) const;
};

MatchingModel parse_matching_model(std::string_view json, const std::string& item);  // Errors: bad_input
std::string to_json(const MatchingModel& model);
const MatchingModel& shipped_matching_model();  // from models/weights/matching.json, built in

}  // namespace evet
