// The exact limits of the number of different animals, held to the hypergeometric distribution (two samples)
// and to draws (more), and what becomes of estimates that claim certainty.
#include "models/closed/exact_distinct.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "models/base/random.h"
#include "models/closed/two_sample.h"
#include "models/estimate.h"

namespace evet::models {
namespace {

TEST(ExactDistinct, IsTheHypergeometricForTwoSamples) {
  for (const auto& [m, c, r] : {std::tuple{8.0, 8.0, 8.0}, {20.0, 15.0, 6.0}, {5.0, 40.0, 5.0}}) {
    const Interval two = hypergeometric_interval({m, c, r}, 0.95);
    const Interval distinct = exact_distinct_interval({m, c}, m + c - r, 0.95);
    EXPECT_EQ(distinct.lower, two.lower);
    EXPECT_EQ(distinct.upper, two.upper);
  }
}

TEST(ExactDistinct, TailsAreThoseOfDraws) {
  const std::vector<double> catches = {6, 9, 4, 7};
  constexpr int kAnimals = 20, kSets = 20000;
  Random random(3);
  int at_most = 0, at_least = 0;
  for (int set = 0; set < kSets; ++set) {
    std::set<std::uint64_t> seen;
    for (const double caught : catches) {
      std::set<std::uint64_t> now;
      while (now.size() < static_cast<std::size_t>(caught)) now.insert(random.below(kAnimals));
      seen.insert(now.begin(), now.end());
    }
    at_most += seen.size() <= 14;
    at_least += seen.size() >= 14;
  }
  const DistinctTails tails = distinct_tails(catches, 14, kAnimals);
  EXPECT_NEAR(tails.at_most, at_most / double(kSets), 0.012);
  EXPECT_NEAR(tails.at_least, at_least / double(kSets), 0.012);
}

TEST(ExactDistinct, NoRecaptureSetsNoBound) {
  EXPECT_TRUE(std::isinf(exact_distinct_interval({3, 4}, 7, 0.95).upper));
}

// Eight animals on two nights, all eight each time: up to twelve may be there.
TEST(ExactDistinct, AnAnswerWithoutSpreadHasLimitsAllTheSame) {
  const EstimateReport two = estimate(histories_from_counts({{"11", 8}}), {.plots = false});
  EXPECT_EQ(two.answer.at(0).value, 8);
  EXPECT_EQ(two.answer.at(0).intervals.front().lower, 8);
  EXPECT_GE(two.answer.at(0).intervals.front().upper, 9);
  for (const auto& counts : {std::map<std::string, int>{{"111111", 8}},
                             {{"111101", 3}, {"011111", 5}},
                             {{"1110", 4}, {"0111", 4}, {"1011", 1}}}) {
    const EstimateReport report = estimate(histories_from_counts(counts), {.plots = false});
    for (const Estimate& estimate : report.answer)
      if (estimate.what.quantity == Quantity::number) {
        EXPECT_GT(estimate.intervals.front().upper, estimate.intervals.front().lower)
            << counts.begin()->first;
      }
  }
}

TEST(ExactDistinct, EveryRowOfTheTableHasWidth) {
  const EstimateReport report =
      estimate(histories_from_counts({{"110000", 3}, {"011000", 3}, {"001100", 2}}), {.plots = false});
  for (const ModelRow& row : report.table)
    EXPECT_GT(row.estimates.front().intervals.front().upper, row.estimates.front().intervals.front().lower)
        << row.name;
  CaptureHistories periods = histories_from_counts({{"11001100", 6}, {"11000000", 2}});
  periods.primary = {0, 0, 0, 0, 1, 1, 1, 1};
  for (const Estimate& estimate : estimate(periods, {.plots = false}).answer)
    if (estimate.what.quantity == Quantity::number) {
      EXPECT_GT(estimate.intervals.front().upper, estimate.intervals.front().lower) << estimate.parameter;
    }
}

}  // namespace
}  // namespace evet::models
