// Chances of one interval and chances that are the same throughout are figures of their own.
#include <gtest/gtest.h>

#include <algorithm>

#include "models/base/random.h"
#include "models/estimate.h"
#include "models/simulate/simulate.h"

namespace evet::models {
namespace {

const std::vector<double> kSurvival = {0.6, 0.8, 0.5, 0.85, 0.7}, kCapture = {0.3, 0.5, 0.2, 0.6, 0.35, 0.5};

CaptureHistories uneven_season(Random& random) {
  return simulate_open({{200, 60, 60, 60, 60, 60}, kSurvival, kCapture}, [&] { return random.uniform(); });
}

const Estimate* figure(const EstimateReport& report, const Parameter& what) {
  for (const Estimate& one : report.answer)
    if (one.what == what) return &one;
  return nullptr;
}

// Survival differs by more than these limits are wide, and by less than a survey of this size shows: most of the
// weight is with the models in which it does not. Their limits held one interval's in three of four surveys.
TEST(AnswerByInterval, HoldsWhatTheDataCannotShow) {
  Random random(17);
  const EstimateRequest request{.design = "open", .models = {"survival"}, .plots = false};
  int given = 0, held = 0, alike = 0;
  constexpr int kSets = 12;
  for (int set = 0; set < kSets; ++set) {
    const EstimateReport report = estimate(uneven_season(random), request);
    alike += figure(report, {Quantity::survival}) ? 1 : 0;
    for (const int interval : {2, 3, 4}) {
      const Estimate* one = figure(report, {Quantity::survival, interval});
      ASSERT_NE(one, nullptr);
      if (!one->undefined.empty()) continue;
      ++given;
      const double truth = kSurvival[static_cast<std::size_t>(interval) - 1];
      held += one->intervals.front().lower <= truth && truth <= one->intervals.front().upper ? 1 : 0;
    }
  }
  EXPECT_GE(alike, kSets / 2) << "nothing is shown if the data tell the intervals apart";
  EXPECT_GE(given, 30);
  EXPECT_GE(held, given * 9 / 10);
}

TEST(AnswerByInterval, SaysWhichFigureIsWhich) {
  Random random(17);
  const EstimateReport report =
      estimate(uneven_season(random), {.design = "open", .models = {"survival"}, .plots = false});
  const Estimate* alike = figure(report, {Quantity::survival});
  ASSERT_NE(alike, nullptr);
  EXPECT_LT(alike->standard_error, figure(report, {Quantity::survival, 3})->standard_error);
  EXPECT_EQ(std::count_if(report.warnings.begin(), report.warnings.end(),
                          [](const Message& one) { return one.code() == "alike_or_by_interval"; }),
            1);
  // With nothing by interval there is one figure, and nothing to say.
  EstimateRequest request{.design = "open", .plots = false};
  request.card = nlohmann::json::parse(R"({"models": [{"model": "survival", "survival": "constant"}]})");
  const EstimateReport constant = estimate(uneven_season(random), request);
  EXPECT_EQ(std::count_if(constant.answer.begin(), constant.answer.end(),
                          [](const Estimate& one) { return one.what.quantity == Quantity::survival; }),
            1);
  EXPECT_TRUE(std::none_of(constant.warnings.begin(), constant.warnings.end(),
                           [](const Message& one) { return one.code() == "alike_or_by_interval"; }));
}

}  // namespace
}  // namespace evet::models
