#include "models/ask/default_set.h"

#include <algorithm>

#include "models/ask/messages.h"
#include "models/ask/registry.h"
#include "models/base/messages.h"

namespace evet::models {
namespace {

// Beyond so many occasions, models by occasion need this many captures an occasion: else they take minutes to
// say that the data are too few for them.
constexpr std::size_t kManyOccasions = 20;
constexpr double kCapturesAnOccasion = 10;

bool too_thin_by_occasion(const CaptureHistories& histories) {
  if (histories.occasion_count() <= kManyOccasions) return false;
  const auto captures = std::count(histories.caught.begin(), histories.caught.end(), 1);
  return static_cast<double>(captures) <
         kCapturesAnOccasion * static_cast<double>(histories.occasion_count());
}

// Models of the registry that suit so many occasions.
std::vector<ModelChoice> suited_models(const std::string& design, SurveyData& data) {
  const CaptureHistories& histories = data.histories();
  const int occasions = static_cast<int>(histories.occasion_count());
  const bool thin = too_thin_by_occasion(histories);
  std::vector<ModelChoice> choices;
  for (const ModelEntry& entry : registry()) {
    if (entry.design != design || entry.default_from == 0 || (thin && entry.by_occasion)) continue;
    if (entry.for_groups && data.usual_groups().empty()) continue;
    if (entry.for_places && !data.tells_movement(design == "robust")) continue;
    if (occasions < entry.default_from || occasions > entry.default_until) continue;
    ModelChoice choice;
    choice.name = entry.name;
    choices.push_back(choice);
  }
  return choices;
}

bool has_secondary_occasions(const CaptureHistories& histories) {
  return histories.primary_count() >= 2 &&
         histories.occasion_count() > static_cast<std::size_t>(histories.primary_count());
}

}  // namespace

Suited suited_design(const CaptureHistories& histories) {
  const std::size_t occasions = histories.occasion_count();
  if (has_secondary_occasions(histories)) return {"robust", messages::kGatheredIntoPeriods};
  if (occasions < 3)
    return {"closed", occasions == 2 ? messages::kTwoOccasionsClosed : messages::kOneOccasionClosed};
  if (histories.dates.empty()) return {"closed", messages::kNoDatesClosed};
  const double span = days_between(histories.dates.front(), histories.dates.back());
  if (span <= kLongestClosedDays)
    return {
        "closed",
        {messages::kShortEnoughClosed, {{"span", in_days(span)}, {"longest", in_days(kLongestClosedDays)}}}};
  return {"open", {messages::kSpanTooLong, {{"span", in_days(span)}}}};
}

DefaultSet default_set(const std::string& design, SurveyData& data) {
  const CaptureHistories& histories = data.histories();
  const std::size_t occasions = histories.occasion_count();
  DefaultSet set;
  if (occasions < 2) return set;
  set.models = suited_models(design, data);
  if (design == "robust") {
    set.why = {messages::kRobustSet};
  } else if (design == "open") {
    set.why = {occasions >= 3 ? messages::kOpenSetWithClosedForms : messages::kOpenSet};
  } else if (occasions == 2) {
    set.why = {messages::kTwoSampleSet};
  } else {
    set.why = {occasions >= 5   ? messages::kClosedSetOfFive
               : occasions >= 4 ? messages::kClosedSetOfFour
                                : messages::kClosedSet};
  }
  if (too_thin_by_occasion(histories) && design != "robust") set.why.push_back(messages::kThinByOccasion);
  return set;
}

}  // namespace evet::models
