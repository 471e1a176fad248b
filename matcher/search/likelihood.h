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

// What the highest of several tries is worth: the ratios of one view with several photos of an individual.
// Chance had more tries, so the same ratio says less; but of the individual itself some photo nearly always
// fits well, so a middling best says much less, and a high one more. From x, the best of k tries, to
// x + scale x ln k - shift ln k; beyond `most` tries, which is what the fit saw, by the union bound (less the
// logarithm of how many times more they are). Scale 0 and shift 1 are the union bound from the start.
struct BestOfTries {
  double scale = 0, shift = 1;
  std::size_t most = 1;
  // `tries` from 1. `lowest` and `highest`: the model's caps, which the ratio was bent by and
  // is bent by again.
  double operator()(double best, std::size_t tries, double lowest, double highest) const;
};

struct MatchingModel {
  LogisticModel pair;       // over Measures: one photo against one photo
  LogisticModel code_only;  // over {code distance, cosine_similarity}: pairs that were not aligned
  BestOfTries best_of;
  double highest = 0;  // caps, natural log
  double lowest = 0;
  double llr(const Measures& measures) const;
  double llr_of_code(double code_distance, double cosine_similarity) const;
  // Of one capture against one individual: the mean of its photos' best ratios and, where they could be
  // joined (join_patterns.h), the best of the joined pattern at equal weight; taken for the best of as many
  // tries as photos of the individual it was held against.
  double llr_of_capture(const std::vector<double>& best_of_photos, std::optional<double> best_of_joined,
                        size_t tries) const;
};

MatchingModel parse_matching_model(std::string_view json, const std::string& item);  // Errors: bad_input
std::string to_json(const MatchingModel& model);
const MatchingModel& shipped_matching_model();  // from models/weights/matching.json, built in

}  // namespace evet
