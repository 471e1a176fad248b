// Conditions kept back from training: nothing of them is drawn elsewhere, nothing else is drawn with them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <opencv2/imgproc.hpp>
#include <set>
#include <stdexcept>

#include "tools/render/clutter.h"
#include "tools/render/finish.h"
#include "tools/render/individual.h"
#include "tools/render/mechanisms.h"
#include "tools/render/scene.h"

namespace evet::render {
namespace {

Conditions foreign() {
  Conditions conditions;
  conditions.foreign = true;
  return conditions;
}

CaptureSpec foreign_spec(std::uint32_t individual) {
  CaptureSpec spec;
  spec.world_seed = 201;
  spec.individual = individual;
  spec.size = {160, 120};
  spec.conditions = foreign();
  return spec;
}

std::set<std::string> set_of(const std::vector<std::string>& names) {
  return {names.begin(), names.end()};
}

TEST(Foreign, ListsShareNoNameWithTheOrdinaryOnes) {
  using Names = std::vector<std::string>;
  for (const auto& [kept_back, ordinary] : {std::pair<Names, Names>{foreign_mechanisms(), mechanisms()},
                                            {foreign_backgrounds(), backgrounds()},
                                            {foreign_lights(), lights()}}) {
    const std::set<std::string> names = set_of(kept_back);
    EXPECT_EQ(names.size(), kept_back.size());
    EXPECT_GE(names.size(), 3U);
    for (const std::string& name : ordinary) EXPECT_FALSE(names.contains(name)) << name;
  }
}

TEST(Foreign, ThingsShareNoKindWithTheOrdinaryOnes) {
  ClutterScene scene;
  scene.frame = {400, 300}, scene.px_per_unit = 150, scene.half_width_px = 20;
  scene.midline = {{200, 100}, {200, 200}};
  std::set<std::string> ordinary, kept_back;
  const auto add = [](std::set<std::string>& to, const std::vector<Thing>& things) {
    for (const Thing& thing : things) to.insert(thing.kind);
  };
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    add(ordinary, draw_floor_clutter(scene, 1, seed % 2 == 0, Rng(seed)));
    add(ordinary, draw_covering_clutter(scene, 1, seed % 2 == 0, Rng(seed)));
    add(kept_back, draw_foreign_floor_clutter(scene, 1, Rng(seed)));
    add(kept_back, draw_foreign_covering_clutter(scene, 1, Rng(seed)));
  }
  EXPECT_GE(kept_back.size(), 8U);
  for (const std::string& kind : ordinary) EXPECT_FALSE(kept_back.contains(kind)) << kind;
}

TEST(Foreign, EveryMechanismGivesAReasonableShareOfDarkAndIndividualsDiffer) {
  for (const std::string& name : foreign_mechanisms()) {
    std::vector<cv::Mat1b> skins;
    for (std::uint64_t seed = 0; seed < 12; ++seed) {
      skins.push_back(grow_pattern(name, Rng(seed)));
      EXPECT_GT(dark_share(skins.back()), 0.03) << name << " " << seed;
      EXPECT_LT(dark_share(skins.back()), 0.6) << name << " " << seed;
    }
    for (std::size_t i = 0; i < skins.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        const double both = cv::countNonZero(skins[i] & skins[j]),
                     any = cv::countNonZero(skins[i] | skins[j]);
        EXPECT_LT(both / any, 0.6) << name << " " << i << " and " << j;
      }
  }
}

TEST(Foreign, AgeingTakesNothingBack) {
  for (std::uint32_t i = 0; i < 12; ++i) {
    const Individual animal = make_individual(201, i, foreign());
    const cv::Mat1b young = animal.pattern.at_years(0) < 0, old = animal.pattern.at_years(3) < 0;
    EXPECT_EQ(cv::countNonZero(young & ~old), 0) << animal.mechanism;
    const double growth = cv::countNonZero(old) / static_cast<double>(cv::countNonZero(young));
    EXPECT_GT(growth, 1.0) << animal.mechanism;
    EXPECT_LT(growth, 2.0) << animal.mechanism;
  }
}

TEST(Foreign, PhotosDrawFromTheForeignListsAloneAndFromAllOfThem) {
  std::set<std::string> seen_mechanisms, seen_backgrounds, seen_lights;
  for (std::uint32_t i = 0; i < 60; ++i) {
    const Truth truth = render(foreign_spec(i)).truth;
    seen_mechanisms.insert(truth.mechanism);
    seen_backgrounds.insert(truth.background);
    seen_lights.insert(truth.light);
  }
  EXPECT_EQ(seen_mechanisms, set_of(foreign_mechanisms()));
  EXPECT_EQ(seen_backgrounds, set_of(foreign_backgrounds()));
  EXPECT_EQ(seen_lights, set_of(foreign_lights()));
}

TEST(Foreign, OtherPhotosDrawNothingForeign) {
  const std::set<std::string> ours = set_of(mechanisms());
  for (std::uint32_t i = 0; i < 30; ++i) {
    CaptureSpec spec = foreign_spec(i);
    spec.conditions.foreign = false;
    spec.conditions.wild = i % 2 == 0;
    const Truth truth = render(spec).truth;
    EXPECT_TRUE(ours.contains(truth.mechanism));
    for (const std::string& name : foreign_backgrounds()) EXPECT_NE(truth.background, name);
    for (const std::string& name : foreign_lights()) EXPECT_NE(truth.light, name);
  }
}

TEST(Foreign, ALookAlikeHasAForeignPatternToo) {
  const Individual animal = make_individual(201, 3, foreign()), other = make_look_alike(201, 3, foreign());
  EXPECT_TRUE(set_of(foreign_mechanisms()).contains(other.mechanism));
  EXPECT_EQ(animal.mechanism, other.mechanism);
}

TEST(Foreign, EveryFinishChangesAPictureAndALevelGreyStaysLevel) {
  const cv::Mat3b grey(48, 64, cv::Vec3b(120, 120, 120));
  cv::Mat3b edge = grey.clone();
  edge.colRange(32, 64).setTo(cv::Vec3b(60, 160, 210));
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    const Finish finish = draw_finish(Rng(seed));
    cv::Mat3f light;
    edge.convertTo(light, CV_32F, 1 / 255.0);
    through_lens(light, finish);
    cv::Mat3b out;
    light.convertTo(out, CV_8U, 255);
    finish_picture(out, finish);
    EXPECT_GT(cv::norm(out, edge, cv::NORM_INF), 3) << seed;

    cv::Mat3b level = grey.clone();
    finish_picture(level, finish);
    EXPECT_EQ(cv::norm(level, cv::Mat3b(level.size(), level(0, 0)), cv::NORM_INF), 0) << seed;
  }
}

TEST(Foreign, NamesOfTheOtherListsAreRefusedByName) {
  const auto message_of = [](const CaptureSpec& spec) -> std::string {
    try {
      render(spec);
    } catch (const std::invalid_argument& error) {
      return error.what();
    }
    return "nothing was thrown";
  };
  CaptureSpec spec = foreign_spec(1);
  spec.conditions.only_backgrounds = {"slate"};
  EXPECT_EQ(message_of(spec), "no foreign background is called 'slate'");
  spec = foreign_spec(1);
  spec.conditions.without_mechanisms = {"blobs"};
  EXPECT_EQ(message_of(spec), "no foreign mechanism is called 'blobs'");
  spec = foreign_spec(1);
  spec.conditions.only_lights = {"sun"};
  EXPECT_EQ(message_of(spec), "no foreign light is called 'sun'");
  spec.conditions = {};
  spec.conditions.only_lights = {"sodium-lamp"};
  EXPECT_EQ(message_of(spec), "no light is called 'sodium-lamp'");
  spec.conditions = foreign();
  spec.conditions.wild = true;
  EXPECT_THAT(message_of(spec), testing::HasSubstr("cannot be both"));
}

}  // namespace
}  // namespace evet::render
