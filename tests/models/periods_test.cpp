// Periods found in dates, and the designs that follow.
#include "models/periods.h"

#include <gtest/gtest.h>

#include "models/base/input_error.h"
#include "models/base/random.h"
#include "models/estimate.h"
#include "models/simulate/simulate.h"

namespace evet::models {
namespace {

const std::vector<std::string> kThreeSprings = {"2031-04-10", "2031-04-11", "2031-04-13", "2031-04-14",
                                                "2032-04-09", "2032-04-10", "2032-04-11", "2032-04-12",
                                                "2033-04-14", "2033-04-15", "2033-04-16", "2033-04-18"};

TEST(Periods, ThreeSpringsOfFourNightsStandOut) {
  const auto periods = periods_that_stand_out(kThreeSprings);
  ASSERT_TRUE(periods);
  EXPECT_EQ(periods->primary, (std::vector<int>{0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2}));
  EXPECT_EQ(said_of(*periods).words(),
            "3 periods of 4, 4 and 4 nights (up to 2 days apart within a period, 361 days or more between)");
}

TEST(Periods, AreNotSeenWhereNightsAreEvenlySpreadOrAlone) {
  EXPECT_FALSE(periods_that_stand_out({"2031-04-01", "2031-05-01", "2031-06-01", "2031-07-01"}));
  EXPECT_FALSE(periods_that_stand_out({"2031-04-01", "2032-04-01", "2033-04-01", "2033-04-02"}));
  EXPECT_FALSE(periods_that_stand_out(
      {"2031-04-01", "2031-04-20", "2031-06-15", "2031-07-20", "2032-05-01", "2032-07-20"}))
      << "a season too long to be closed";
  EXPECT_FALSE(periods_that_stand_out({"2031-04-01"}));
  // Pairs of nights every three weeks.
  EXPECT_TRUE(periods_that_stand_out(
      {"2031-04-01", "2031-04-02", "2031-04-22", "2031-04-23", "2031-05-13", "2031-05-14"}));
}

TEST(Periods, GiveTheRobustDesignUnlessOpenIsAskedFor) {
  Random random(2);
  CaptureHistories histories =
      simulate_robust({{80, 30, 30}, 4, 0.6, 0, 0, 0.4}, [&] { return random.uniform(); });
  histories.primary.clear();
  histories.dates = kThreeSprings;
  const EstimateReport report = estimate(histories, {.plots = false});
  EXPECT_EQ(report.design, "robust");
  EXPECT_NE(words(report.why).find("3 periods of 4, 4 and 4 nights"), std::string::npos) << words(report.why);
  for (const Estimate& estimate : report.answer)
    if (estimate.what.quantity == Quantity::survival) {
      EXPECT_NEAR(estimate.value, 0.6, 0.2) << "from spring to spring";
    }
  EXPECT_EQ(estimate(histories, {.design = "open", .plots = false}).design, "open");
  EstimateRequest by_gap{.design = "robust", .plots = false};
  by_gap.period_gap_days = 1;
  EXPECT_NE(words(estimate(histories, by_gap).why).find("robust"), std::string::npos);
  by_gap.period_gap_days = -1;
  EXPECT_THROW(estimate(histories, by_gap), InputError);
  histories.dates.clear();
  by_gap.period_gap_days = 20;
  EXPECT_THROW(estimate(histories, by_gap), InputError);
}

// Animals that stay away for a time make the tests of an open model fail; that is no overdispersion of the
// robust design, which has them.
TEST(Periods, TemporaryEmigrationIsNoOverdispersion) {
  Random random(4);
  double used = 0;
  constexpr int kSets = 12;
  for (int set = 0; set < kSets; ++set) {
    const CaptureHistories histories = simulate_robust({{150, 60, 60, 60, 60, 60}, 4, 0.85, 0.25, 0.75, 0.4},
                                                       [&] { return random.uniform(); });
    used += estimate(histories, {.plots = false}).overdispersion.used / kSets;
  }
  EXPECT_LT(used, 1.2);
}

}  // namespace
}  // namespace evet::models
