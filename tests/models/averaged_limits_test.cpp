// Limits averaged over models, held to the normal distribution and to what they must never be.
#include "models/choice/averaged_limits.h"

#include <gtest/gtest.h>

#include <cmath>

namespace evet::models {
namespace {

WeighedLimits around(double weight, double value, double sd, double floor, double level = 0.95) {
  const double half = normal_point(level) * sd;  // on ln(N - floor)
  const double unseen = value - floor;
  return {weight, value, floor + unseen * std::exp(-half), floor + unseen * std::exp(half)};
}

TEST(AveragedLimits, OfOneModelAreItsOwn) {
  const WeighedLimits only = around(1, 120, 0.3, 100);
  const Interval limits = averaged_limits({only}, Range::above, 100, 0.95);
  EXPECT_NEAR(limits.lower, only.lower, 1e-6);
  EXPECT_NEAR(limits.upper, only.upper, 1e-6);
  const Interval chance = averaged_limits({{1, 0.8, 0.6, 0.9}}, Range::from_0_to_1, 0, 0.95);
  EXPECT_NEAR(chance.lower, 0.6, 1e-6);
  EXPECT_NEAR(chance.upper, 0.9, 1e-6);
}

TEST(AveragedLimits, LeaveTheTailsOfTheMixture) {
  const std::vector<WeighedLimits> models = {around(0.7, 120, 0.3, 100), around(0.3, 150, 0.2, 100)};
  const Interval limits = averaged_limits(models, Range::above, 100, 0.9);
  const auto below = [&](double x) {
    const double z95 = normal_point(0.95), z90 = normal_point(0.9);
    double sum = 0;
    for (const auto& [weight, value, sd] : {std::tuple{0.7, 120.0, 0.3}, {0.3, 150.0, 0.2}})
      sum +=
          weight * 0.5 * std::erfc(-std::log((x - 100) / (value - 100)) / (sd * z95 / z90) / std::sqrt(2.0));
    return sum;
  };
  EXPECT_NEAR(below(limits.lower), 0.05, 1e-4);
  EXPECT_NEAR(below(limits.upper), 0.95, 1e-4);
}

TEST(AveragedLimits, AModelThatKnowsLittleWidensByItsWeightOnly) {
  const WeighedLimits sure = around(0.99, 120, 0.2, 100);
  const WeighedLimits vague{0.01, 400, 110, 9000};
  const Interval limits = averaged_limits({sure, vague}, Range::above, 100, 0.95);
  EXPECT_LT(limits.upper, 1.1 * sure.upper);
  EXPECT_TRUE(std::isinf(
      averaged_limits({{0.8, 120, 110, 150}, {0.2, 300, 110, kInfinity}}, Range::above, 100, 0.95).upper));
}

TEST(AveragedLimits, AnEstimateAtItsEndComesInWithItsLimits) {
  // Eight animals, all seen: the profile reaches to 12.
  const Interval limits = averaged_limits({{0.6, 8, 8, 12}, {0.4, 9, 8.2, 13}}, Range::above, 8, 0.95);
  EXPECT_EQ(limits.lower, 8);
  EXPECT_GT(limits.upper, 11);
  EXPECT_LT(limits.upper, 13);
  const Interval survival =
      averaged_limits({{0.5, 1, 0.8, 1}, {0.5, 0.9, 0.75, 0.96}}, Range::from_0_to_1, 0, 0.95);
  EXPECT_GT(survival.lower, 0.7);
  EXPECT_GT(survival.upper, 0.96);
  EXPECT_LE(survival.upper, 1);
}

}  // namespace
}  // namespace evet::models
