// Animals that pass through and animals that answer to capture: what the plain survival model makes of them,
// and what the models do that have them.
#include "models/open/release_effects.h"

#include <gtest/gtest.h>

#include <cmath>

#include "gradient_check.h"
#include "models/base/input_error.h"
#include "models/base/random.h"
#include "models/estimate.h"
#include "models/open/survival.h"
#include "tests/models/named_estimate.h"

namespace evet::models {
namespace {

using testing::named;

CaptureHistories survey(double passing, double after_capture, Random& random) {
  CaptureHistories h;
  for (int j = 0; j < 7; ++j) h.occasions.push_back(std::to_string(j + 1));
  for (int i = 0; i < 420; ++i) {
    std::vector<std::uint8_t> row(7, 0);
    const auto first = static_cast<std::size_t>(i % 6);
    row[first] = 1;
    bool just_caught = true;
    const bool passes = random.chance(passing);
    for (std::size_t j = first + 1; j < 7 && !passes && random.chance(0.8); ++j) {
      row[j] = random.chance(just_caught && after_capture > 0 ? after_capture : 0.5) ? 1 : 0;
      just_caught = row[j];
    }
    h.animals.push_back(std::to_string(i));
    h.caught.insert(h.caught.end(), row.begin(), row.end());
  }
  return h;
}

TEST(ReleaseEffects, HoldThePlainModelAsASpecialCase) {
  Random random(1);
  const CaptureHistories h = survey(0.2, 0, random);
  for (const bool by_occasion : {false, true}) {
    const FittedModel plain = fit_survival(m_array(h), by_occasion, by_occasion),
                      same = fit_release_effects(h, {by_occasion, by_occasion, false, false});
    EXPECT_NEAR(plain.log_likelihood, same.log_likelihood, 1e-6);
  }
  for (const ReleaseEffects& effects :
       {ReleaseEffects{false, false, true, false}, {true, false, true, true}, {false, true, false, true}})
    testing::expect_gradient_of_differences(fit_release_effects(h, effects), 0.2, 1e-7);
  EXPECT_THROW(fit_release_effects(histories_from_counts({{"11", 3}}), {}), InputError);
}

TEST(ReleaseEffects, SurvivalIsThatOfAnimalsThatStay) {
  Random random(2);
  double plain = 0, resident = 0, newly = 0;
  int covered = 0;
  constexpr int kSets = 40;
  for (int set = 0; set < kSets; ++set) {
    const CaptureHistories h = survey(0.4, 0, random);
    plain += fit_survival(m_array(h), false, false).estimates[0].value / kSets;
    const FittedModel model = fit_release_effects(h, {false, false, true, false});
    resident += named(model, "survival").value / kSets;
    newly += named(model, "survival after the first capture").value / kSets;
    const Interval& interval = named(model, "survival").intervals.front();
    covered += interval.lower <= 0.8 && 0.8 <= interval.upper;
  }
  EXPECT_LT(plain, 0.73) << "those that passed through count as dead";
  EXPECT_NEAR(resident, 0.8, 0.015);
  EXPECT_NEAR(newly, 0.6 * 0.8, 0.03);
  EXPECT_GE(covered, 34);
}

TEST(ReleaseEffects, RecaptureJustAfterACaptureIsItsOwn) {
  Random random(3);
  double after = 0, other = 0;
  constexpr int kSets = 20;
  for (int set = 0; set < kSets; ++set) {
    const FittedModel model = fit_release_effects(survey(0, 0.75, random), {false, false, false, true});
    after += named(model, "recapture just after a capture").value / kSets;
    other += named(model, "recapture").value / kSets;
  }
  EXPECT_NEAR(after, 0.75, 0.03);
  EXPECT_NEAR(other, 0.5, 0.06);
}

TEST(ReleaseEffects, TheAnswerOfAnOpenSurveyAllowsForAnimalsThatPassThrough) {
  Random random(4);
  EstimateRequest request{.design = "open", .models = {"survival"}, .plots = false};
  const EstimateReport report = estimate(survey(0.4, 0, random), request);
  bool advised = false;
  for (const Message& warning : report.warnings)
    advised = advised || warning.words().find("only pass through") != std::string::npos;
  EXPECT_TRUE(advised);
  for (const Estimate& estimate : report.answer)
    if (estimate.what.quantity == Quantity::survival) {
      EXPECT_LE(estimate.intervals.front().lower, 0.8);
      EXPECT_GE(estimate.intervals.front().upper, 0.78);
    }
  // The model can be said again by its card.
  request.models.clear();
  request.card = nlohmann::json::parse(
      R"({"models": [{"model": "survival", "survival": {"after_capture": true}, "recapture": "constant"}]})");
  EXPECT_EQ(estimate(survey(0.4, 0, random), request).table.at(0).description,
            "survival constant, its own after the first capture; recapture constant");
}

}  // namespace
}  // namespace evet::models
