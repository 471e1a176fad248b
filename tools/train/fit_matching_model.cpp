#include "tools/train/fit_matching_model.h"

#include <algorithm>
#include <cmath>

#include "tools/train/fit_best_of.h"
#include "tools/train/fit_logistic.h"

namespace evet::train {
namespace {

constexpr size_t kCode = 8, kDescribed = 10;  // places among the measures
static_assert(kMeasureNames[kCode] == "code" && kMeasureNames[kDescribed] == "described");

// Which way each measure may count: more agreement is for, contradiction, bending and distance are against.
const std::vector<int> kMeasureSigns = {+1, +1, +1, +1, -1, -1, -1, -1, -1, 0, +1, +1};

}  // namespace

MatchingModel fit_matching_model(const std::vector<ComparedPair>& pairs, const FitOptions& options) {
  std::vector<Example> of_pairs, of_codes;
  double same = 0, different = 0;
  for (const ComparedPair& pair : pairs) {
    of_pairs.push_back({{pair.measures.begin(), pair.measures.end()}, pair.same, pair.weight});
    of_codes.push_back({{pair.measures[kCode], pair.measures[kDescribed]}, pair.same, pair.weight});
    (pair.same ? same : different) += pair.independent;
  }
  MatchingModel model;
  model.pair = fit_logistic(of_pairs, {kMeasureSigns, options.ridge, options.priors});
  model.code_only = fit_logistic(of_codes, {{-1, +1}, options.ridge, options.priors});
  model.highest = std::log(std::max(different / 3, 1.0));
  model.lowest = -std::log(std::max(same / 3, 1.0));
  const auto photos = static_cast<size_t>(options.photos);
  model.best_of = fit_best_of(best_of_tries(pairs, model, photos), model, options.priors);
  return model;
}

}  // namespace evet::train
