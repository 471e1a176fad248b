#include "matcher/belly/belly_gate.h"

#include <gtest/gtest.h>

#include "matcher/belly/measure_quality.h"

namespace evet {
namespace {

TEST(BellyGate, TwoSureLooksAtALargeNewtPass) {
  EXPECT_GT(p_large_belly({.first_look = 0.99, .second_look = 0.998, .p_small_kind = 0.005}), 0.95);
}

// Refused, and by a margin: with both looks as sure as the surer one of each pair it would pass.
TEST(BellyGate, OneLookIsNotEnough) {
  const double limit = QualityLimits{}.p_belly_block;
  EXPECT_LT(p_large_belly({.first_look = 0.99, .second_look = 0.3, .p_small_kind = 0.03}), limit / 4);
  EXPECT_LT(p_large_belly({.first_look = 0.2, .second_look = 0.97, .p_small_kind = 0.03}), 0.6 * limit);
  EXPECT_GT(p_large_belly({.first_look = 0.99, .second_look = 0.97, .p_small_kind = 0.03}), limit);
}

TEST(BellyGate, GrowsWithBothLooksAndFallsWithSignsOfASmallKind) {
  const GateFacts facts{.first_look = 0.9, .second_look = 0.95, .p_small_kind = 0.05};
  GateFacts other = facts;
  other.first_look = 0.95;
  EXPECT_GT(p_large_belly(other), p_large_belly(facts));
  other = facts, other.second_look = 0.97;
  EXPECT_GT(p_large_belly(other), p_large_belly(facts));
  other = facts, other.p_small_kind = 0.2;
  EXPECT_LT(p_large_belly(other), p_large_belly(facts));
}

TEST(BellyGate, StaysFiniteAtTheEndsOfTheScale) {
  EXPECT_GT(p_large_belly({.first_look = 1, .second_look = 1, .p_small_kind = 0}), 0.99);
  EXPECT_LT(p_large_belly({.first_look = 0, .second_look = 0, .p_small_kind = 1}), 0.01);
}

}  // namespace
}  // namespace evet
