// The table of difficulties, held by the truth of many random captures.
#include "tools/render/capture.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "tools/render/individual.h"
#include "tools/render/scene.h"

namespace evet::render {
namespace {

struct Row {
  Difficulty difficulty;
  double bend_low, bend_high, roll, turn, length_low, length_high, tilt_low, tilt_high, width, covered;
  bool cuts;
};

class DifficultyTable : public testing::TestWithParam<Row> {};

TEST_P(DifficultyTable, HoldsOverRandomCaptures) {
  const Row row = GetParam();
  const Individual animal = make_individual(5, 9);
  int cut = 0, covered_some = 0;
  double widest_roll = 0, longest = 0, shortest = 1, most_bend = 0;
  constexpr int kCaptures = 200;
  for (std::uint32_t i = 0; i < kCaptures; ++i) {
    CaptureSpec spec;
    spec.world_seed = 5;
    spec.individual = 9;
    spec.capture = i;
    spec.size = i % 3 == 0 ? cv::Size(120, 160) : cv::Size(160, 120);
    spec.conditions.difficulty = row.difficulty;
    const Truth t = render(animal, spec).truth;
    const double share = t.length_px / 200;
    EXPECT_GE(t.bend_deg, row.bend_low);
    EXPECT_LE(t.bend_deg, row.bend_high);
    EXPECT_LE(std::abs(t.roll), row.roll);
    EXPECT_LE(std::abs(t.turn_deg), row.turn);
    EXPECT_GE(share, row.length_low - 0.002);
    EXPECT_LE(share, row.length_high + 0.002);
    EXPECT_GE(t.tilt_deg, row.tilt_low);
    EXPECT_LE(t.tilt_deg, row.tilt_high);
    EXPECT_LE(std::abs(t.width_change), row.width);
    EXPECT_LE(t.covered_share, row.covered + 1e-9) << "capture " << i;
    EXPECT_TRUE(row.cuts || !t.cut_off) << "capture " << i;
    cut += t.cut_off;
    covered_some += t.covered_share > 0.005;
    widest_roll = std::max(widest_roll, std::abs(t.roll));
    longest = std::max(longest, share);
    shortest = std::min(shortest, share);
    most_bend = std::max(most_bend, t.bend_deg);
  }
  // The ranges are used, not only kept.
  EXPECT_GT(widest_roll, 0.9 * row.roll);
  EXPECT_GT(most_bend, 0.9 * row.bend_high);
  EXPECT_GT(longest, row.length_high - 0.15 * (row.length_high - row.length_low));
  EXPECT_LT(shortest, row.length_low + 0.15 * (row.length_high - row.length_low));
  if (row.cuts) {
    EXPECT_GT(cut, kCaptures / 10);
    EXPECT_LT(cut, kCaptures * 3 / 10);
  }
  if (row.covered > 0) {
    EXPECT_GT(covered_some, kCaptures / 10);
  }
}

INSTANTIATE_TEST_SUITE_P(
    All, DifficultyTable,
    testing::Values(Row{Difficulty::gentle, 0, 20, 0.10, 20, 0.33, 0.52, 0, 5, 0.05, 0, false},
                    Row{Difficulty::middle, 2, 50, 0.25, 180, 0.28, 0.60, 0, 15, 0.10, 0.15, false},
                    Row{Difficulty::hardest, 15, 90, 0.5, 180, 0.25, 0.70, 4, 28, 0.15, 0.25, true}));

TEST(YearsBetween, StayInTheirRange) {
  for (std::uint64_t i = 0; i < 200; ++i) {
    EXPECT_LE(draw_years_between(Difficulty::gentle, i), 0.5);
    EXPECT_LE(draw_years_between(Difficulty::middle, i), 1.2);
    EXPECT_LE(draw_years_between(Difficulty::hardest, i), 3.0);
    EXPECT_GT(draw_years_between(Difficulty::gentle, i), 0);
  }
}

}  // namespace
}  // namespace evet::render
