// What the solid world promises beyond the conventions: bytes that repeat, patterns that only grow, animals
// that differ, difficulties that hold.
#include "tools/render/solid/solid_world.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>
#include <stdexcept>
#include <thread>

#include "tools/render/solid/capture_plan.h"
#include "tools/render/solid/pattern.h"

namespace evet::render {
namespace {

CaptureSpec spec_of(std::uint32_t individual, Difficulty difficulty = Difficulty::middle) {
  CaptureSpec spec;
  spec.world = World::solid;
  spec.world_seed = 74;
  spec.individual = individual;
  spec.size = {256, 192};
  spec.conditions.difficulty = difficulty;
  return spec;
}
bool same(const cv::Mat& a, const cv::Mat& b) {
  return a.size() == b.size() && a.type() == b.type() && std::equal(a.datastart, a.dataend, b.datastart);
}
cv::Mat1b skin_of(std::uint32_t individual, double years, const Conditions& conditions = {}) {
  return skin_pattern(74, individual, years, {80, 256}, conditions, World::solid);
}
double overlap(const cv::Mat1b& a, const cv::Mat1b& b) {
  return static_cast<double>(cv::countNonZero(a & b)) / std::max(1, cv::countNonZero(a | b));
}

TEST(SolidWorld, SameSeedsGiveTheSameBytesOnAnyThread) {
  const CaptureSpec spec = spec_of(3, Difficulty::hardest);
  const RenderedPhoto here = render(spec);
  RenderedPhoto there[2];
  std::thread first([&] { there[0] = render(spec); }), second([&] { there[1] = render(spec); });
  first.join();
  second.join();
  for (const RenderedPhoto& photo : there) {
    EXPECT_TRUE(same(here.bgr, photo.bgr));
    EXPECT_TRUE(same(here.truth.belly, photo.truth.belly));
    EXPECT_TRUE(same(here.truth.clear, photo.truth.clear));
    EXPECT_TRUE(same(here.truth.part, photo.truth.part));
  }
}

TEST(SolidWorld, DarkIsNeverLostWithTheYears) {
  double grown = 0;
  for (std::uint32_t i = 0; i < 24; ++i) {
    cv::Mat1b before = skin_of(i, 0);
    const int young = cv::countNonZero(before);
    for (const double years : {0.3, 1.0, 3.0, 10.0}) {
      const cv::Mat1b now = skin_of(i, years);
      EXPECT_EQ(cv::countNonZero(before & ~now), 0) << "individual " << i << ", " << years << " years";
      before = now;
    }
    grown += static_cast<double>(cv::countNonZero(before)) / young;
  }
  EXPECT_GT(grown / 24, 1.01);
}

TEST(SolidWorld, IndividualsDifferAndKeepTheirPattern) {
  for (std::uint32_t i = 0; i < 40; ++i) {
    const cv::Mat1b own = skin_of(i, 0);
    const double dark = static_cast<double>(cv::countNonZero(own)) / static_cast<double>(own.total());
    EXPECT_GT(dark, 0.05) << "individual " << i;
    EXPECT_LT(dark, 0.7) << "individual " << i;
    for (std::uint32_t k = i + 1; k < 40; ++k) EXPECT_LT(overlap(own, skin_of(k, 0)), 0.75) << i << ", " << k;
    EXPECT_GT(overlap(own, skin_of(i, 3)), 0.6) << "individual " << i;
  }
}

TEST(SolidWorld, EveryRuleGivesPatternsOfItsOwn) {
  ASSERT_GE(mechanisms(World::solid).size(), 8U);
  for (const std::string& rule : mechanisms(World::solid)) {
    Conditions conditions;
    conditions.only_mechanisms = {rule};
    EXPECT_LT(overlap(skin_of(1, 0, conditions), skin_of(2, 0, conditions)), 0.75) << rule;
    CaptureSpec spec = spec_of(1);
    spec.conditions = conditions;
    EXPECT_EQ(render(spec).truth.mechanism, rule);
  }
}

TEST(SolidWorld, NothingLiesOverAGentleBellyAndLittleOverAMiddleOne) {
  for (std::uint32_t i = 0; i < 12; ++i) {
    const Truth gentle = render(spec_of(i, Difficulty::gentle)).truth, middle = render(spec_of(i)).truth;
    EXPECT_LE(gentle.covered_share, 0.01) << "individual " << i;
    EXPECT_LE(middle.covered_share, 0.17) << "individual " << i;
    EXPECT_FALSE(gentle.cut_off || middle.cut_off) << "individual " << i;
    EXPECT_LE(gentle.bend_deg, 20);
  }
}

TEST(SolidWorld, EverySettingAndLightCanBeAskedFor) {
  for (const std::string& name : backgrounds(World::solid)) {
    CaptureSpec spec = spec_of(5);
    spec.size = {96, 72};
    spec.conditions.only_backgrounds = {name};
    EXPECT_EQ(render(spec).truth.background, name);
  }
  for (const std::string& name : lights(World::solid)) {
    CaptureSpec spec = spec_of(6);
    spec.size = {96, 72};
    spec.conditions.only_lights = {name};
    EXPECT_EQ(render(spec).truth.light, name);
  }
}

TEST(SolidWorld, RefusesConditionsOfTheOtherWorld) {
  CaptureSpec spec = spec_of(1);
  spec.conditions.foreign = true;
  EXPECT_THROW(render(spec), std::invalid_argument);
  spec = spec_of(1);
  spec.conditions.only_mechanisms = {mechanisms(World::drawn).front()};
  EXPECT_THROW(render(spec), std::invalid_argument);
  spec = spec_of(1);
  spec.conditions.only_backgrounds = {"no-such-floor"};
  EXPECT_THROW(render(spec), std::invalid_argument);
}

TEST(SolidWorld, ALookAlikeIsOfTheSameKindButNotTheSame) {
  const CaptureSpec spec = spec_of(7);
  const RenderedPhoto own = solid::photograph(spec), other = solid::photograph(spec, true);
  EXPECT_EQ(own.truth.mechanism, other.truth.mechanism);
  EXPECT_FALSE(same(own.bgr, other.bgr));
}

TEST(SolidWorld, WildPicturesHaveTruthAsWell) {
  for (std::uint32_t i = 0; i < 8; ++i) {
    CaptureSpec spec = spec_of(i);
    spec.conditions.wild = true;
    const Truth t = render(spec).truth;
    EXPECT_GT(cv::countNonZero(t.belly), 200) << "individual " << i;
    EXPECT_EQ(t.midline.size(), 65U);
  }
}

}  // namespace
}  // namespace evet::render
