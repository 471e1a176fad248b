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

// What the capture model looks at, of two or more pair ratios sorted best first: the best, the mean of the
// best two, and the logarithm of how many there are.
std::vector<double> capture_inputs(const std::vector<double>& pair_llrs);

struct MatchingModel {
  LogisticModel pair;       // over Measures: one photo against one photo
  LogisticModel code_only;  // over {code distance, alikeness}: pairs that were not aligned
  LogisticModel capture;    // over capture_inputs()
  double highest = 0;       // caps, natural log
  double lowest = 0;
  double llr(const Measures& measures) const;
  double llr_of_code(double code_distance, double alikeness) const;
  // Pair ratios of one capture against one individual, best first. They are not independent: the model was
  // fitted on such sets.
  double llr_of_capture(const std::vector<double>& pair_llrs) const;
};

MatchingModel parse_matching_model(std::string_view json, const std::string& item);  // Errors: bad_input
std::string to_json(const MatchingModel& model);
const MatchingModel& shipped_matching_model();  // from models/weights/matching.json, built in

}  // namespace evet
