#include "tools/train/found_strip.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>

namespace evet::train {
namespace {

render::CaptureSpec photo_of(std::uint32_t individual) {
  render::CaptureSpec spec;
  spec.individual = individual;
  spec.size = {1000, 750};
  spec.conditions.difficulty = render::Difficulty::middle;
  return spec;
}

TEST(FoundStrip, ShowsTheAnimalsOwnPatternWhereItIsPlainlySeen) {
  double n = 0, a = 0, b = 0, aa = 0, ab = 0, bb = 0;
  for (const std::uint32_t individual : {3U, 4U, 5U}) {
    const render::CaptureSpec spec = photo_of(individual);
    const std::optional<StripSample> sample = cut_as_found(spec, render::render(spec));
    ASSERT_TRUE(sample) << individual;
    ASSERT_EQ(sample->dark.size(), static_cast<std::size_t>(kMapRows) * kMapCols);
    ASSERT_EQ(sample->rgb.size(), 3 * sample->dark.size());
    ASSERT_EQ(sample->pattern.size(), sample->dark.size());
    for (std::size_t at = 0; at < sample->dark.size(); ++at) {
      if (sample->valid[at] == 0) continue;
      const double x = sample->dark[at], y = sample->pattern[at];
      n += 1, a += x, b += y, aa += x * x, ab += x * y, bb += y * y;
    }
  }
  ASSERT_GT(n, 3 * kMapRows * kMapCols / 2);
  const double correlation = (ab - a * b / n) / std::sqrt((aa - a * a / n) * (bb - b * b / n));
  EXPECT_GT(correlation, 0.5) << "a strip lies a little wrong, but on its own animal";
  EXPECT_LT(correlation, 0.99) << "it is not cut along the truth";
}

// The strip takes in what lies beside the belly, and that is not called plainly seen.
TEST(FoundStrip, WhatIsNoBellyIsInThePictureButNotValid) {
  int beside = 0;
  for (const std::uint32_t individual : {3U, 4U, 5U}) {
    const render::CaptureSpec spec = photo_of(individual);
    const std::optional<StripSample> sample = cut_as_found(spec, render::render(spec));
    ASSERT_TRUE(sample) << individual;
    for (std::size_t at = 0; at < sample->valid.size(); ++at)
      beside += sample->valid[at] == 0 && std::abs(sample->rgb[3 * at] - 128) > 20;
  }
  EXPECT_GT(beside, 3 * kMapRows) << "a column's worth of each";
}

TEST(FoundStrip, NoneWhereThereIsNoBelly) {
  render::CaptureSpec spec = photo_of(3);
  spec.subject = render::Subject::empty_tray;
  EXPECT_FALSE(cut_as_found(spec, render::render(spec)));
}

}  // namespace
}  // namespace evet::train
