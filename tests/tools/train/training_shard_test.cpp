#include "tools/train/training_shard.h"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <set>

namespace evet::train {
namespace {

Draw gentle_belly() {
  Draw drawn;
  drawn.spec.world_seed = 3;
  drawn.spec.individual = 41;
  drawn.spec.size = {448, 336};
  drawn.spec.conditions.difficulty = render::Difficulty::gentle;
  return drawn;
}

}  // namespace

TEST(TrainingShard, KeepsFitTuneAndScoreSeedsApart) {
  std::set<render::Subject> subjects;
  for (std::uint32_t shard = 0; shard < 20; ++shard)
    for (std::uint32_t index = 0; index < 100; ++index) {
      const Draw fit = draw(shard, index, false), tune = draw(shard, index, true);
      EXPECT_GE(fit.spec.world_seed, 1U);
      EXPECT_LE(fit.spec.world_seed, 99U);
      EXPECT_GE(tune.spec.world_seed, 100U);
      EXPECT_LE(tune.spec.world_seed, 199U);
      subjects.insert(fit.spec.subject);
    }
  EXPECT_EQ(subjects.size(), 6U) << "every kind of subject is drawn";
}

TEST(TrainingShard, HalfOfTheSamplesAreOfEachWorldAndSaySo) {
  int solid = 0;
  for (std::uint32_t index = 0; index < 400; ++index)
    solid += draw(1, index, false).spec.world == render::World::solid;
  EXPECT_GT(solid, 160);
  EXPECT_LT(solid, 240);
  for (const render::World world : {render::World::drawn, render::World::solid}) {
    Draw drawn = gentle_belly();
    drawn.spec.world = world;
    drawn.spec.size = {224, 168};
    const Sample sample = pack(drawn, render::render(drawn.spec));
    const bool is_solid = world == render::World::solid;
    EXPECT_EQ(sample.facts[kWorldKind], is_solid ? 1.F : 0.F);
    // Names of the two worlds cannot be taken for each other.
    for (const Fact fact : {kMechanism, kBackground, kLight}) {
      EXPECT_EQ(sample.facts[fact] >= kSolidNames, is_solid);
      EXPECT_GE(sample.facts[fact], 0);
    }
  }
}

TEST(TrainingShard, ASampleIsTheLetterboxedPhotoWithItsTruthOnTheSameFrame) {
  const Draw drawn = gentle_belly();
  const render::RenderedPhoto photo = render::render(drawn.spec);
  const Sample sample = pack(drawn, photo);
  ASSERT_EQ(sample.picture.size(), static_cast<std::size_t>(kPicture) * kPicture * 3);
  ASSERT_EQ(sample.facts.size(), static_cast<std::size_t>(kFacts));

  // The photo's own pixels, red first, below a bar of grey.
  constexpr int bar = (kPicture - 336) / 2;
  EXPECT_EQ(sample.picture[0], 128);
  const cv::Vec3b pixel = photo.bgr(100, 200);
  const std::size_t at = (static_cast<std::size_t>(100 + bar) * kPicture + 200) * 3;
  EXPECT_EQ(sample.picture[at], pixel[2]);
  EXPECT_EQ(sample.picture[at + 2], pixel[0]);

  // Along the midline, wherever the belly shows, u is the midline's own and v is small.
  int checked = 0;
  for (int i = 4; i < kMidlinePoints - 4; ++i) {
    const int x = static_cast<int>(sample.facts[static_cast<std::size_t>(kMidline + 2 * i)] / 2),
              y = static_cast<int>(sample.facts[static_cast<std::size_t>(kMidline + 2 * i + 1)] / 2);
    if (x < 0 || y < 0 || x >= kTruth || y >= kTruth) continue;
    const std::size_t cell = static_cast<std::size_t>(y) * kTruth + static_cast<std::size_t>(x);
    if ((sample.flags[cell] & 9) != 9) continue;
    EXPECT_NEAR(static_cast<float>(sample.uv[2 * cell]) / kUvScale, i / 64.0, 0.02);
    EXPECT_NEAR(static_cast<float>(sample.uv[2 * cell + 1]) / kUvScale, 0, 0.2);
    ++checked;
  }
  EXPECT_GT(checked, 40);
}

TEST(TrainingShard, WhatLiesOverTheBellyIsNotClear) {
  const Sample sample = pack(gentle_belly(), render::render(gentle_belly().spec));
  for (const std::uint8_t flags : sample.flags)
    if (flags & 4) {
      EXPECT_TRUE(flags & 1) << "clear skin is belly skin";
    }
}

TEST(TrainingShard, AFolderThatIsNotThereIsAnErrorThatNamesTheFile) {
  const std::filesystem::path nowhere =
      std::filesystem::temp_directory_path() / "evet-no-such-folder" / "a.shard";
  try {
    write_shard(nowhere, {});
    FAIL() << "nothing was thrown";
  } catch (const std::exception& error) {
    EXPECT_NE(std::string(error.what()).find("a.shard"), std::string::npos);
  }
}

}  // namespace evet::train
