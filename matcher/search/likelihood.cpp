#include "matcher/search/likelihood.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <numeric>

#include "matcher/base/error.h"
#include "matcher/search/llr_map.h"
#include "matcher/search/messages.h"

extern "C" const char evet_matching_weights[], evet_matching_weights_end[];  // weights.S

namespace evet {
namespace {

using nlohmann::json;

LogisticModel parse_logistic(const json& from, const std::string& item) {
  LogisticModel model{from.at("mean"), from.at("spread"), from.at("weights")};
  const size_t n = model.mean.size();
  if (model.spread.size() != n || model.weights.size() != 1 + n)
    throw Error(ErrorKind::bad_input, item, messages::kNumbersOfMeansSpreadsAnd);
  return model;
}
json logistic_json(const LogisticModel& model) {
  return {{"mean", model.mean}, {"spread", model.spread}, {"weights", model.weights}};
}

}  // namespace

std::vector<double> LogisticModel::standardised(const std::vector<double>& inputs) const {
  std::vector<double> z(inputs.size());
  for (size_t i = 0; i < z.size(); ++i) z[i] = std::clamp((inputs[i] - mean[i]) / spread[i], -4.0, 4.0);
  return z;
}

double LogisticModel::log_odds(const std::vector<double>& inputs) const {
  const std::vector<double> z = standardised(inputs);
  return std::inner_product(z.begin(), z.end(), weights.begin() + 1, weights[0]);
}

double BestOfTries::operator()(double best, std::size_t tries, double lowest, double highest) const {
  const double all = std::log(static_cast<double>(tries)),
               seen = std::log(static_cast<double>(std::min(tries, most)));
  return LlrMap{1 + scale * seen, -shift * seen - (all - seen)}(best, lowest, highest);
}

double MatchingModel::llr(const Measures& measures) const {
  return capped(pair.log_odds({measures.begin(), measures.end()}), lowest, highest);
}
double MatchingModel::llr_of_code(double code_distance, double cosine_similarity) const {
  return capped(code_only.log_odds({code_distance, cosine_similarity}), lowest, highest);
}
double MatchingModel::llr_of_capture(const std::vector<double>& best_of_photos,
                                     std::optional<double> best_of_joined, size_t tries) const {
  double llr = std::accumulate(best_of_photos.begin(), best_of_photos.end(), 0.0) /
               static_cast<double>(best_of_photos.size());
  if (best_of_joined) llr = (llr + *best_of_joined) / 2;
  return best_of(llr, tries, lowest, highest);
}

MatchingModel parse_matching_model(std::string_view text, const std::string& item) {
  try {
    const json from = json::parse(text);
    if (from.at("measures").get<std::vector<std::string>>() !=
        std::vector<std::string>(kMeasureNames.begin(), kMeasureNames.end()))
      throw Error(ErrorKind::bad_input, item, messages::kWasFittedOtherMeasuresThan,
                  messages::kFitAgainWithProgram);
    const json& best_of = from.at("best_of");
    MatchingModel model{parse_logistic(from.at("pair"), item),
                        parse_logistic(from.at("code_only"), item),
                        {best_of.at("scale"), best_of.at("shift"), best_of.at("most")},
                        from.at("highest"),
                        from.at("lowest")};
    if (!(model.best_of.scale >= 0) || model.best_of.most < 1)
      throw Error(ErrorKind::bad_input, item, messages::kWhatBestOfSeveralTries);
    if (model.pair.mean.size() != kMeasures || model.code_only.mean.size() != 2)
      throw Error(ErrorKind::bad_input, item, messages::kModelHasWrongNumberOf);
    return model;
  } catch (const json::exception& e) {
    throw Error(ErrorKind::bad_input, item, Message(messages::kIsNotFileOfMatching, {{"e", e.what()}}));
  }
}

std::string to_json(const MatchingModel& model) {
  return json{
             {"measures", kMeasureNames},
             {"pair", logistic_json(model.pair)},
             {"code_only", logistic_json(model.code_only)},
             {"best_of",
              {{"scale", model.best_of.scale}, {"shift", model.best_of.shift}, {"most", model.best_of.most}}},
             {"highest", model.highest},
             {"lowest", model.lowest}}
             .dump(1) +
         "\n";
}

const MatchingModel& shipped_matching_model() {
  static const MatchingModel model = parse_matching_model(
      {evet_matching_weights, static_cast<size_t>(evet_matching_weights_end - evet_matching_weights)},
      "models/weights/matching.json");
  return model;
}

}  // namespace evet
