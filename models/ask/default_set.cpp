#include "models/ask/default_set.h"

#include <algorithm>

#include "models/ask/registry.h"

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

std::string days(double count) {
  return std::to_string(static_cast<long>(count)) + (count == 1 ? " day" : " days");
}

}  // namespace

Suited suited_design(const CaptureHistories& histories) {
  const std::size_t occasions = histories.occasion_count();
  if (has_secondary_occasions(histories))
    return {"robust",
            "The occasions are gathered into primary periods with several occasions in them: closed within, "
            "open between."};
  if (occasions < 3)
    return {"closed",
            occasions == 2
                ? "Two occasions cannot tell survival from recapture, so the population is taken for closed."
                : "One occasion cannot tell survival from recapture, so the population is taken for closed."};
  if (histories.dates.empty())
    return {"closed",
            "No dates are given, so the population is taken for closed; ask for the open design if animals "
            "could come, go or die between the occasions."};
  const double span = days_between(histories.dates.front(), histories.dates.back());
  if (span <= kLongestClosedDays)
    return {"closed", "The occasions lie within " + days(span) +
                          ", short enough to take the population for closed (up to " +
                          days(kLongestClosedDays) + ")."};
  return {"open", "The occasions span " + days(span) + ": animals could come, go or die in that time."};
}

DefaultSet default_set(const std::string& design, SurveyData& data) {
  const CaptureHistories& histories = data.histories();
  const std::size_t occasions = histories.occasion_count();
  DefaultSet set;
  if (occasions < 2) return set;
  set.models = suited_models(design, data);
  if (design == "robust") {
    set.why =
        "Survival between the periods, with animals always there, away at random, or away depending on the "
        "period before; capture the same throughout or by period; and each period alone beside them.";
  } else if (design == "open") {
    set.why =
        "Survival and recapture, each constant or by occasion (and by each group that is named), with "
        "animals that "
        "only pass through or answer to capture; numbers and growth from the super-population";
    if (occasions >= 3) set.why += "; the closed forms of Jolly and Seber beside them";
    set.why += ".";
  } else if (occasions == 2) {
    set.why = "Two occasions: the two-sample estimate, corrected for bias, with the plain ratio beside it.";
  } else {
    set.why = "Every animal and occasion alike, occasions unlike, and animals that answer to being caught";
    if (occasions >= 4) set.why += ", and animals unlike, alone and together with unlike occasions";
    if (occasions >= 5) set.why += " or with an answer to capture";
    set.why +=
        "; beside them, not averaged: a lower bound, the jackknife and sample coverage for unequal "
        "catchability, and the two batch estimates.";
  }
  if (too_thin_by_occasion(histories) && design != "robust")
    set.why +=
        " With so many occasions and so few captures, models with a chance for each occasion are left out; "
        "name them "
        "to fit them.";
  return set;
}

}  // namespace evet::models
