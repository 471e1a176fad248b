#include "matcher/search/llr_cost.h"

#include <gtest/gtest.h>

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

// By hand: half of log2(1 + 1/3) for a same-trial at ratio 3, half of log2(1 + 1/7) for a different one at
// 1/7.
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

}  // namespace
}  // namespace evet
