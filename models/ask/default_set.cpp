#include "models/ask/default_set.h"

#include <algorithm>

namespace evet::models {
namespace {

std::vector<ModelChoice> named(const std::vector<std::string>& names) {
  std::vector<ModelChoice> choices;
  for (const std::string& name : names) {
    ModelChoice choice;
    choice.name = name;
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
  if (design == "robust") {
    DefaultSet set;
    set.models = named({"robust", "closed-by-period"});
    set.why =
        "Survival between the periods, with animals always there, away at random, or away depending on the "
        "period before; capture the same throughout or by period; and each period alone beside them.";
    return set;
  }
  if (design == "open") {
    DefaultSet set;
    if (occasions < 2) return set;
    set.models = named({"survival", "super-population", "growth"});
    set.why =
        "Survival and recapture, each constant or by occasion (and by each group that is named); numbers "
        "from "
        "the super-population; the growth rate";
    if (occasions >= 3) {
      set.models.push_back(named({"jolly-seber"}).front());
      set.why += "; the closed forms of Jolly and Seber beside them";
    }
    set.why += ".";
    return set;
  }
  if (occasions == 1) return {{}, ""};
  if (occasions == 2)
    return {named({"chapman", "lincoln-petersen"}),
            "Two occasions: the two-sample estimate, corrected for bias, with the plain ratio beside it."};
  std::vector<std::string> names = {"constant", "occasion", "response"};
  std::string why =
      "Every animal and occasion alike, occasions unlike, and animals that answer to being caught";
  if (occasions >= 4) {
    names.insert(names.end(), {"occasion-response", "mixture", "beta-binomial", "occasion-mixture"});
    why += ", and animals unlike, alone and together with unlike occasions";
  }
  if (occasions >= 5) {
    names.push_back("response-mixture");
    why += " or with an answer to capture";
  }
  names.insert(names.end(),
               {"chao-corrected", "jackknife", "sample-coverage", "schnabel", "schumacher-eschmeyer"});
  why +=
      "; beside them, not averaged: a lower bound, the jackknife and sample coverage for unequal "
      "catchability, "
      "and the two batch estimates.";
  return {named(names), why};
}

}  // namespace evet::models
