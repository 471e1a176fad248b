#include "matcher/search/align.h"

#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "matcher/pattern/spot_map.h"
#include "matcher/search/compare.h"
#include "tests/matcher/search/synthetic_maps.h"

namespace evet {
namespace {

Comparison compared(const SpotMap& query_map, const SpotMap& gallery_map, double p_head_right = 1,
                    Order order = Order::unknown) {
  const Pattern query = pattern_of(query_map, p_head_right), gallery = pattern_of(gallery_map, 1);
  const PreparedQuery prepared = prepare(query);
  return compare(prepared, gallery, best_hits(prepared.codes, gallery.code, 3), order);
}

TEST(Align, AMapLiesOnItself) {
  const SpotMap map = synthetic::spotted(1);
  const Comparison same = compared(map, map);
  EXPECT_GT(same.alignment.correlation, 0.999);
  EXPECT_NEAR(same.alignment.at(0.3, 0.4).x, 0.3, 1e-3);
  EXPECT_NEAR(same.alignment.at(0.3, 0.4).y, 0.4, 1e-2);
}

TEST(Align, UndoesAPlacementAndASmoothBend) {
  for (unsigned seed = 1; seed <= 8; ++seed) {
    const SpotMap map = synthetic::spotted(seed);
    const Placement placement{.u_shift = 0.04, .u_stretch = 1.05, .v_shift = -0.2, .v_stretch = 0.95};
    const SpotMap seen = synthetic::warped(map, placement, 0.01, seed + 100);
    const Comparison c = compared(seen, map);
    EXPECT_GT(c.alignment.correlation, 0.85) << "seed " << seed;
    // gallery (u, v) -> query; the query was read at placement, so the inverse of placement is to be found.
    const cv::Point2d to = c.alignment.at(placement.u(0.5), placement.v(0.0));
    EXPECT_NEAR(to.x, 0.5, 0.03) << "seed " << seed;
    EXPECT_NEAR(to.y, 0.0, 0.15) << "seed " << seed;
  }
}

TEST(Align, FindsTheHeadEndWhenItIsNotSure) {
  const SpotMap map = synthetic::spotted(3);
  const Comparison sure = compared(turned(map), map, 1.0), unsure = compared(turned(map), map, 0.5);
  EXPECT_FALSE(sure.turned);
  EXPECT_TRUE(unsure.turned);
  EXPECT_GT(unsure.alignment.correlation, 0.99);
  EXPECT_LT(sure.alignment.correlation, 0.7);
}

TEST(Align, CoveredSkinCountsNeitherWay) {
  const SpotMap map = synthetic::spotted(4);
  const Comparison whole = compared(map, map), part = compared(synthetic::covered(map, {0, 60, 60, 70}), map);
  EXPECT_GT(part.alignment.correlation, 0.98);
  EXPECT_LT(part.alignment.overlap, whole.alignment.overlap - 0.15);
}

TEST(Align, NothingInCommonIsNoCorrelation) {
  const SpotMap map = synthetic::spotted(5);
  const SpotMap top = synthetic::covered(map, {0, 128, 80, 128}),
                bottom = synthetic::covered(map, {0, 0, 80, 128});
  const AlignmentMaps a = alignment_maps(top), b = alignment_maps(bottom);
  const Alignment none = align_coarse(a, b, {});
  EXPECT_EQ(none.correlation, 0);
  EXPECT_EQ(none.overlap, 0);
}

TEST(Align, OptionsAreChecked) {
  AlignOptions options;
  options.unlike = 0;
  EXPECT_THROW(options.check(), Error);
}

TEST(Evidence, IsNearlyTheSameBothWays) {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    const SpotMap a = synthetic::spotted(seed), b = synthetic::warped(a, {.v_shift = 0.15}, 0.008, seed + 50);
    EXPECT_NEAR(compared(a, b).alignment.correlation, compared(b, a).alignment.correlation, 0.06) << seed;
  }
}

TEST(Evidence, GrowthIsNotContradiction) {
  const SpotMap young = synthetic::spotted(6, 20), old = synthetic::grown(young, 12, 9);
  SpotMap robbed = synthetic::copy(young);  // a large spot gone from the later map
  cv::rectangle(robbed.dark, {10, 100}, {60, 150}, cv::Scalar(0), cv::FILLED);
  const auto lost = [](const Comparison& c) { return c.measures[4]; };
  EXPECT_STREQ(std::string(kMeasureNames[4]).c_str(), "lost");
  const Comparison growth = compared(old, young, 1, Order::fixed_first),
                   loss = compared(robbed, young, 1, Order::fixed_first);
  EXPECT_LT(lost(growth), 0.01);
  EXPECT_GT(lost(loss), 0.05);
}

TEST(Evidence, ManySmallSpotsTellMoreThanAFewBlotches) {
  const SpotMap spots = synthetic::spotted(11, 60);
  SpotMap blotches{cv::Mat1b(kMapRows, kMapCols, uchar{0}), cv::Mat1b(kMapRows, kMapCols, uchar{255})};
  cv::circle(blotches.dark, {20, 60}, 28, cv::Scalar(255), cv::FILLED);
  cv::circle(blotches.dark, {60, 190}, 28, cv::Scalar(255), cv::FILLED);
  EXPECT_STREQ(std::string(kMeasureNames[3]).c_str(), "information");
  const Comparison many = compared(spots, spots), few = compared(blotches, blotches);
  EXPECT_NEAR(many.measures[0], few.measures[0], 1e-6);  // both lie on themselves
  EXPECT_GT(many.measures[3], 1.5 * few.measures[3]);
  const Comparison half = compared(synthetic::covered(spots, {0, 0, 80, 128}), spots);
  EXPECT_LT(half.measures[3], 0.85 * many.measures[3]);
}

TEST(Evidence, WhatIsLostDependsOnWhichCameFirst) {
  const SpotMap more = synthetic::spotted(7, 24);
  SpotMap fewer = synthetic::copy(more);
  cv::rectangle(fewer.dark, {10, 100}, {60, 150}, cv::Scalar(0), cv::FILLED);
  const Comparison lost = compared(fewer, more, 1, Order::fixed_first),
                   gained = compared(fewer, more, 1, Order::moving_first);
  EXPECT_DOUBLE_EQ(lost.measures[4], gained.measures[5]);
  EXPECT_DOUBLE_EQ(lost.measures[5], gained.measures[4]);
  EXPECT_GT(lost.measures[4], lost.measures[5]);
}

TEST(Evidence, SpotsOfOneAnimalAreMatchedAndOfAnotherFew) {
  const SpotMap a = synthetic::spotted(8), again = synthetic::warped(a, {.u_shift = 0.03}, 0.006, 5);
  const int same = compared(again, a).matched_spots, other = compared(synthetic::spotted(9), a).matched_spots;
  EXPECT_GE(same, 12);
  EXPECT_LT(2 * other, same + 1);
}

}  // namespace
}  // namespace evet
