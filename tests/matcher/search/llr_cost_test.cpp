#include "matcher/search/llr_cost.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace evet {
namespace {

// Well calibrated ratios: with same-trials drawn from N(s^2/2, s^2) and different from N(-s^2/2, s^2) the
// score is its own log-likelihood ratio.
std::vector<LlrTrial> calibrated(double scale, double shift, int n) {
  std::mt19937 rng(4);
  std::normal_distribution<double> normal(0, 2);
  std::vector<LlrTrial> out;
  for (int i = 0; i < n; ++i) {
    out.push_back({scale * (2 + normal(rng)) + shift, true, 1});
    out.push_back({scale * (-2 + normal(rng)) + shift, false, 1});
  }
  return out;
}

TEST(LlrCost, OfRatiosThatSayNothingIsOneBit) {
  EXPECT_NEAR(llr_cost({{0, true, 1}, {0, false, 1}, {0, false, 1}}).total, 1, 1e-12);
}

// By hand: half of log2(1 + 1/3) for a same-trial at ratio 3, half of log2(1 + 1/7) for a
// different one at 1/7.
TEST(LlrCost, OfOneTrialOfEachKindByHand) {
  const LlrCost cost = llr_cost({{std::log(3.0), true, 1}, {-std::log(7.0), false, 1}});
  EXPECT_NEAR(cost.total, (std::log2(4.0 / 3) + std::log2(8.0 / 7)) / 2, 1e-12);
  EXPECT_NEAR(cost.discrimination, 0, 1e-12);
}

TEST(LlrCost, CalibrationPartIsSmallWhenCalibratedAndGrowsWhenOverstated) {
  const LlrCost good = llr_cost(calibrated(1, 0, 20000)), bold = llr_cost(calibrated(3, 0, 20000)),
                off = llr_cost(calibrated(1, 2, 20000));
  EXPECT_LT(good.calibration(), 0.003);
  EXPECT_GT(bold.calibration(), 0.1);
  EXPECT_GT(off.calibration(), 0.1);
  // No monotone change touches what the order can tell.
  EXPECT_NEAR(bold.discrimination, good.discrimination, 1e-9);
  EXPECT_NEAR(off.discrimination, good.discrimination, 1e-9);
}

TEST(LlrCost, WeightsStandForRepeatedTrials) {
  std::vector<LlrTrial> repeated = calibrated(1.5, 0.3, 50), weighted = repeated;
  for (LlrTrial& t : weighted) t.weight = 3;
  const size_t n = repeated.size();
  for (int copy = 0; copy < 2; ++copy)
    for (size_t i = 0; i < n; ++i) repeated.push_back(repeated[i]);
  EXPECT_NEAR(llr_cost(repeated).total, llr_cost(weighted).total, 1e-12);
  EXPECT_NEAR(llr_cost(repeated).discrimination, llr_cost(weighted).discrimination, 1e-12);
}

TEST(LlrCost, StaysFiniteFarOut) {
  EXPECT_NEAR(llr_cost({{1e4, true, 1}, {-1e4, false, 1}}).total, 0, 1e-12);
  EXPECT_NEAR(llr_cost({{-1e4, true, 1}, {-1e4, false, 1}}).total, 1e4 / std::log(2.0) / 2, 1e-6);
}

// The least cost by another road: the monotone fit as the largest of the smallest means (Barlow et al. 1972,
// Statistical Inference under Order Restrictions, the max-min formula), with no pooling at all.
double least_cost_by_max_min(std::vector<LlrTrial> trials) {
  std::stable_sort(trials.begin(), trials.end(),
                   [](const LlrTrial& a, const LlrTrial& b) { return a.llr < b.llr; });
  double same = 0, different = 0;
  for (const LlrTrial& t : trials) (t.same ? same : different) += t.weight;
  // Equal ratios cannot be told apart, so they are one point.
  std::vector<std::pair<double, double>> points;  // same, different
  for (size_t i = 0; i < trials.size(); ++i) {
    if (i == 0 || trials[i].llr != trials[i - 1].llr) points.emplace_back(0, 0);
    (trials[i].same ? points.back().first : points.back().second) +=
        trials[i].weight / (trials[i].same ? same : different);
  }
  double cost = 0;
  for (size_t i = 0; i < points.size(); ++i) {
    double fitted = 0;
    for (size_t a = 0; a <= i; ++a) {
      double least = 1, s = 0, d = 0;
      for (size_t b = a; b < points.size(); ++b) {
        s += points[b].first, d += points[b].second;
        if (b >= i) least = std::min(least, s / (s + d));
      }
      fitted = std::max(fitted, least);
    }
    if (points[i].first > 0) cost -= points[i].first * std::log2(fitted) / 2;
    if (points[i].second > 0) cost -= points[i].second * std::log2(1 - fitted) / 2;
  }
  return cost;
}

TEST(LlrCost, DiscriminationAgreesWithTheMaxMinFormula) {
  std::mt19937 rng(8);
  for (int round = 0; round < 30; ++round) {
    std::vector<LlrTrial> trials;
    std::normal_distribution<double> normal(0, 2);
    for (int i = 0; i < 40; ++i) {
      const bool same = i % 3 == 0;
      double llr = normal(rng) + (same ? 1 : -1);
      if (round % 2) llr = std::round(llr);  // ties
      trials.push_back({llr, same, 1.0 + i % 2});
    }
    EXPECT_NEAR(llr_cost(trials).discrimination, least_cost_by_max_min(trials), 1e-9) << round;
  }
}

// Total cost by its definition (Brümmer & du Preez 2006, equation for Cllr), on ratios and not on their logs.
TEST(LlrCost, TotalAgreesWithTheDefinition) {
  const std::vector<double> same = {20, 3, 0.8, 150}, different = {0.01, 0.2, 1.5, 0.05, 0.4};
  std::vector<LlrTrial> trials;
  double a = 0, b = 0;
  for (const double ratio : same) trials.push_back({std::log(ratio), true, 1}), a += std::log2(1 + 1 / ratio);
  for (const double ratio : different)
    trials.push_back({std::log(ratio), false, 1}), b += std::log2(1 + ratio);
  EXPECT_NEAR(llr_cost(trials).total, (a / 4 + b / 5) / 2, 1e-12);
}

}  // namespace
}  // namespace evet
