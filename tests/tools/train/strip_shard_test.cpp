#include "tools/train/strip_shard.h"

#include <gtest/gtest.h>

#include <cstdlib>

namespace evet::train {

TEST(StripShard, APairIsOneAnimalTwice) {
  for (std::uint32_t index = 0; index < 200; ++index) {
    const auto [first, second] = draw_pair(5, index, index % 2 == 1);
    EXPECT_EQ(first.world_seed, second.world_seed);
    EXPECT_EQ(first.individual, second.individual);
    EXPECT_NE(first.capture, second.capture);
    EXPECT_EQ(first.world, second.world);
    EXPECT_EQ(first.world_seed >= 100, index % 2 == 1) << "tuning seeds are 100 to 199";
    EXPECT_LT(first.world_seed, 200U) << "200 and up are for scores";
  }
}

class StripOfWorld : public ::testing::TestWithParam<render::World> {};

TEST_P(StripOfWorld, CutAlongTheTruthTheStripShowsTheAnimalsOwnPattern) {
  int right = 0, seen = 0;
  for (const std::uint32_t individual : {3U, 4U, 5U, 6U}) {
    render::CaptureSpec spec;
    spec.world = GetParam();
    spec.individual = individual;
    spec.size = {1000, 750};
    spec.conditions.difficulty = render::Difficulty::gentle;
    const StripSample sample = cut(spec, render::render(spec));
    ASSERT_EQ(sample.dark.size(), static_cast<std::size_t>(kMapRows) * kMapCols);
    EXPECT_EQ(sample.facts[kStripWorldKind], GetParam() == render::World::solid ? 1.F : 0.F);
    for (std::size_t at = 0; at < sample.dark.size(); ++at) {
      if (sample.valid[at] == 0) continue;
      ++seen;
      right += (sample.dark[at] > 127) == (sample.pattern[at] > 127);
    }
  }
  ASSERT_GT(seen, 4 * kMapRows * kMapCols / 2) << "most of a gentle photo's belly is plainly seen";
  EXPECT_GT(right, 0.95 * seen);
}

INSTANTIATE_TEST_SUITE_P(BothWorlds, StripOfWorld,
                         ::testing::Values(render::World::drawn, render::World::solid));

}  // namespace evet::train
