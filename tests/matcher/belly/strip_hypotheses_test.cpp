#include "matcher/belly/strip_hypotheses.h"

#include <gtest/gtest.h>

#include <opencv2/core.hpp>

#include "tests/matcher/belly/analytic_belly.h"

namespace evet {
namespace {

double worst_landing(const AnalyticBelly& belly, const StripMap& map) {
  double worst = 0;
  for (double u = 0.05; u <= 0.96; u += 0.05)
    for (double v : {-0.5, 0.0, 0.5})
      worst = std::max(worst, cv::norm(map.at(u, v) - belly.at(u, v)) / belly.length);
  return worst;
}

// The field as a network gives it for an animal unlike any it saw: u crowded together or drawn apart.
BodyCoordinates with_u(BodyCoordinates k, double slope, double from) {
  for (cv::Vec2f& uv : k.uv) uv[0] = static_cast<float>(from + slope * uv[0]);
  return k;
}

TEST(StripHypotheses, GoodCoordinatesAreFollowedAlone) {
  const AnalyticBelly belly = arc_belly(40);
  const auto found = strip_hypotheses(belly.coordinates(), belly.picture);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].along, LaidAlong::coordinates);
  EXPECT_GT(found[0].support.outline_match(), 0.9);
  EXPECT_LT(worst_landing(belly, found[0].fit.photo_from_strip), 0.02);
}

TEST(StripHypotheses, CoordinatesThatRunAwayGiveWayToTheOutline) {
  const AnalyticBelly belly = arc_belly(40);
  // A third of the range over the whole belly: followed alone, the strip would be three bellies long.
  const auto found = strip_hypotheses(with_u(belly.coordinates(), 0.3, 0.35), belly.picture);
  ASSERT_FALSE(found.empty());
  EXPECT_NE(found[0].along, LaidAlong::coordinates);
  EXPECT_LT(worst_landing(belly, found[0].fit.photo_from_strip), 0.12);
  EXPECT_GT(found[0].support.outline_match(), 0.8);
}

TEST(StripHypotheses, CoordinatesOfNoiseLeaveTheOutline) {
  const AnalyticBelly belly = straight_belly();
  BodyCoordinates k = belly.coordinates();
  cv::RNG random(7);
  for (cv::Vec2f& uv : k.uv)
    uv = {static_cast<float>(random.uniform(0.0, 1.0)), static_cast<float>(random.uniform(-1.0, 1.0))};
  const auto found = strip_hypotheses(k, belly.picture);
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found[0].along, LaidAlong::outline);
  const StripMap& map = found[0].fit.photo_from_strip;
  const cv::Point2d one = map.at(0, 0), other = map.at(1, 0);
  EXPECT_LT(std::min(cv::norm(one - belly.at(0, 0)), cv::norm(one - belly.at(1, 0))), 0.1 * belly.length);
  EXPECT_LT(std::min(cv::norm(other - belly.at(0, 0)), cv::norm(other - belly.at(1, 0))), 0.1 * belly.length);
}

TEST(StripHypotheses, NoBellyHasNone) {
  AnalyticBelly belly = straight_belly();
  BodyCoordinates k = belly.coordinates();
  k.p_belly.setTo(0);
  EXPECT_TRUE(strip_hypotheses(k, belly.picture).empty());
  EXPECT_TRUE(strip_hypotheses({}, belly.picture).empty());
}

// No map comes out that no newt could fill, whatever the field says.
TEST(StripHypotheses, WhatComesOutCouldBeANewt) {
  cv::RNG random(11);
  for (int trial = 0; trial < 12; ++trial) {
    const AnalyticBelly belly = trial % 2 ? arc_belly(60) : straight_belly();
    BodyCoordinates k = with_u(belly.coordinates(), random.uniform(-2.0, 2.0), random.uniform(-1.0, 1.0));
    for (cv::Vec2f& uv : k.uv) uv[1] *= static_cast<float>(random.uniform(0.1, 2.0));
    for (const StripHypothesis& h : strip_hypotheses(k, belly.picture)) {
      EXPECT_TRUE(h.support.possible());
      EXPECT_GE(h.support.narrowest, 0.06);
      EXPECT_LE(h.support.widest, 0.30);
    }
  }
}

}  // namespace
}  // namespace evet
