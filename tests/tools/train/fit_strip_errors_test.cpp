#include "tools/train/fit_strip_errors.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "matcher/base/error.h"

namespace evet::train {
namespace {

TEST(FitStripErrors, NodesOfAKnownErrorAreFound) {
  // Linear in u and v, so that the grid holds it exactly; only the left three quarters are seen.
  const auto nodes = errors_at_nodes([](double u, double v) -> std::optional<cv::Point2d> {
    if (v > 0.5) return std::nullopt;
    return cv::Point2d(u + 0.02 + 0.03 * u, v - 0.2 + 0.1 * v + 0.05 * u);
  });
  ASSERT_TRUE(nodes);
  for (int i = 0; i < kNodesAlong; ++i)
    for (int j = 0; j < kNodesAcross; ++j) {
      const double u = i / 8.0, v = j * 2.0 / 3 - 1;
      EXPECT_NEAR((*nodes)[2 * (i * kNodesAcross + j)], 0.02 + 0.03 * u, 2e-3) << i << " " << j;
      EXPECT_NEAR((*nodes)[2 * (i * kNodesAcross + j) + 1], -0.2 + 0.1 * v + 0.05 * u, 0.03) << i << " " << j;
    }
}

TEST(FitStripErrors, AStripHardlySeenIsNoExample) {
  EXPECT_FALSE(errors_at_nodes([](double u, double v) -> std::optional<cv::Point2d> {
    if (u > 0.2) return std::nullopt;
    return cv::Point2d(u, v);
  }));
}

TEST(FitStripErrors, TheDirectionsThatExamplesVaryInAreKeptAndTheirMeanIsNot) {
  std::mt19937 rng(5);
  std::normal_distribution<> normal;
  std::vector<std::vector<double>> examples;
  for (int i = 0; i < 4000; ++i) {  // all slid along by 0.03 and across by 0.2, about a mean of their own
    const double along = 0.5 + 0.03 * normal(rng), across = 0.1 + 0.2 * normal(rng);
    std::vector<double> e;
    for (int n = 0; n < kNodes; ++n) e.push_back(along), e.push_back(across);
    examples.push_back(e);
  }
  const StripErrors errors = fit_strip_errors(examples, 2, 0.004);
  ASSERT_EQ(errors.modes.size(), 2U);
  // 0.2 half-widths are 0.032 lengths: the larger of the two.
  EXPECT_NEAR(std::abs(errors.modes[0][1]), 0.2, 0.01);
  EXPECT_NEAR(std::abs(errors.modes[1][0]), 0.03, 0.0015);
  EXPECT_THROW(fit_strip_errors({examples[0]}, 2, 0.004), Error);
}

}  // namespace
}  // namespace evet::train
