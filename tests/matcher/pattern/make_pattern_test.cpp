#include "matcher/pattern/make_pattern.h"

#include <gtest/gtest.h>

#include <numbers>

#include "matcher/base/error.h"
#include "matcher/pattern/describe.h"
#include "matcher/pattern/pattern_code.h"
#include "matcher/pattern/spot_list.h"
#include "matcher/search/code_distance.h"
#include "tests/matcher/search/synthetic_maps.h"

namespace evet {
namespace {

SpotMap blank() {
  return {cv::Mat1b(kMapRows, kMapCols, uchar{0}), cv::Mat1b(kMapRows, kMapCols, uchar{255})};
}

// Against the formulas for a filled ellipse: area pi a b, axis ratio a / b.
TEST(SpotList, MeasuresAnEllipse) {
  SpotMap map = blank();
  for (int r = 0; r < kMapRows; ++r)
    for (int c = 0; c < kMapCols; ++c)
      if (std::hypot((r + 0.5 - 128) / 20, (c + 0.5 - 40) / 8) < 1) map.dark(r, c) = 255;
  const std::vector<Spot> spots = list_spots(map, 1e-3);
  ASSERT_EQ(spots.size(), 1U);
  EXPECT_NEAR(spots[0].u, 0.5, 1e-3);
  EXPECT_NEAR(spots[0].v, 0, 1e-3);
  EXPECT_NEAR(spots[0].area, std::numbers::pi * 8 * 20 / (256 * 80), 5e-4);
  EXPECT_NEAR(spots[0].elongation, 2.5, 0.06);
  EXPECT_NEAR(spots[0].angle_rad, 0, 0.02);
}

TEST(SpotList, LeavesOutSpecksAndUnknownSkin) {
  SpotMap map = blank();
  map.dark(10, 10) = 255;
  cv::circle(map.dark, {40, 200}, 6, cv::Scalar(255), cv::FILLED);
  EXPECT_EQ(list_spots(map, 4e-4).size(), 1U);
  map.valid({30, 190, 20, 20}).setTo(0);
  EXPECT_TRUE(list_spots(map, 4e-4).empty());
}

TEST(PatternCode, BitsAreOnlySetWhereKnown) {
  const Pattern pattern = pattern_of(synthetic::covered(synthetic::spotted(21), {0, 0, 80, 100}), 1);
  int known = 0;
  for (int i = 0; i < PatternCode::kWords; ++i) {
    EXPECT_EQ(pattern.code.bits[i] & ~pattern.code.known[i], 0U);
    known += std::popcount(pattern.code.known[i]);
  }
  EXPECT_GT(known, 300);
  EXPECT_LT(known, 1500);
}

TEST(PatternCode, ReadAtAPlacementItIsTheCodeOfTheMovedMap) {
  const SpotMap map = synthetic::spotted(22);
  const Placement placement{.u_shift = 0.0625, .v_shift = 0.25};  // 16 rows and 10 columns exactly
  const PatternCode moved = pattern_of(synthetic::warped(map, placement, 0, 1), 1).code,
                    read = read_code(band_responses(map), placement);
  const CodeDistance d = code_distance(moved, read);
  EXPECT_GT(d.known, 600);
  EXPECT_LT(d.differing, d.known / 50);
}

TEST(PatternCode, TellsTheSameFromAnother) {
  const Pattern a = pattern_of(synthetic::spotted(23), 1), b = pattern_of(synthetic::spotted(24), 1),
                again = pattern_of(synthetic::warped(synthetic::spotted(23), {}, 0.005, 3), 1);
  EXPECT_LT(normalised(code_distance(a.code, again.code)), 0.3);
  EXPECT_GT(normalised(code_distance(a.code, b.code)), 0.4);
}

TEST(Describe, IsOfUnitLengthAndNearForSmallShifts) {
  const SpotMap map = synthetic::spotted(25);
  const std::vector<float> a = describe(map), b = describe(synthetic::warped(map, {.u_shift = 0.01}, 0, 1)),
                           c = describe(synthetic::spotted(26));
  const auto dot = [](const std::vector<float>& x, const std::vector<float>& y) {
    double sum = 0;
    for (size_t i = 0; i < x.size(); ++i) sum += static_cast<double>(x[i]) * y[i];
    return sum;
  };
  EXPECT_NEAR(dot(a, a), 1, 1e-5);
  EXPECT_GT(dot(a, b), 0.9);
  EXPECT_LT(dot(a, c), 0.5);
}

TEST(MakePattern, OptionsAreChecked) {
  EXPECT_THROW(pattern_of(blank(), 1, {.min_spot_area = 0}), Error);
}

}  // namespace
}  // namespace evet
