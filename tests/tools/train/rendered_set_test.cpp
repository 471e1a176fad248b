#include "tools/train/rendered_set.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <set>

#include "matcher/base/error.h"
#include "tools/render/individual.h"

namespace evet::train {
namespace {

TEST(PlannedPhotos, TimeBeforeTheLastCaptureDoesNotGoWithHowManyThereAre) {
  SetSpec spec;
  spec.captures = 4, spec.varied = true, spec.last_photos = 2, spec.difficulty = render::Difficulty::hardest;
  std::map<long, std::set<size_t>> photos_of;  // tenths of a year before the last -> photos planned
  for (std::uint32_t individual = 0; individual < 18; ++individual) {
    const std::vector<PlannedPhoto> plan = planned_photos(spec, individual);
    ASSERT_GE(plan.size(), 3U);
    EXPECT_EQ(plan.back().years, plan[plan.size() - 2].years);  // two photos of one capture
    for (size_t i = 1; i < plan.size(); ++i) EXPECT_GE(plan[i].years, plan[i - 1].years);
    EXPECT_LE(plan.back().years, 3.0 + 1e-9);
    photos_of[std::lround(10 * (plan.back().years - plan[plan.size() - 3].years))].insert(plan.size());
  }
  const std::set<size_t> each = {3, 4, 5};
  EXPECT_EQ(photos_of, (std::map<long, std::set<size_t>>{{3, each}, {10, each}, {27, each}}));
}

TEST(RenderedSet, DrawsForeignConditionsForScoresOnly) {
  SetSpec spec;
  spec.foreign = true, spec.individuals = 1, spec.captures = 1, spec.photo = {160, 120};
  for (const std::uint64_t world : {1U, 150U, 199U}) {
    spec.world = world;
    EXPECT_THROW(rendered_set(spec, 1), Error) << world;
  }
  spec.world = 200;
  const std::vector<SetPhoto> set = rendered_set(spec, 1);
  ASSERT_EQ(set.size(), 1U);
  const auto kept_back = render::foreign_mechanisms();
  EXPECT_EQ(std::count(kept_back.begin(), kept_back.end(), set[0].facts.mechanism), 1);
  SetSpec ordinary = spec;
  ordinary.foreign = false;
  EXPECT_NE(ordinary.name(), spec.name());  // what is kept of the one is not read for the other
}

TEST(RenderedSet, OfTheSolidWorldIsAnotherSetOfOtherAnimals) {
  SetSpec spec;
  spec.individuals = 1, spec.captures = 2, spec.photo = {160, 120};
  SetSpec solid = spec;
  solid.drawing = render::World::solid;
  EXPECT_NE(solid.name(), spec.name());
  const std::vector<SetPhoto> set = rendered_set(solid, 1);
  ASSERT_EQ(set.size(), 2U);
  const auto rules = render::mechanisms(render::World::solid);
  EXPECT_EQ(std::count(rules.begin(), rules.end(), set[0].facts.mechanism), 1);
  EXPECT_EQ(set[0].facts.mechanism, set[1].facts.mechanism);
  solid.look_alikes = true;
  const std::vector<SetPhoto> alike = rendered_set(solid, 1);
  EXPECT_EQ(alike[0].facts.mechanism, set[0].facts.mechanism);
  EXPECT_EQ(alike[0].facts.individual, set[0].facts.individual + kLookAlikes);
  EXPECT_NE(alike[0].jpeg, set[0].jpeg);
}

TEST(LookAlike, HasTheKindAndDarknessOfTheAnimalAndAnotherPattern) {
  for (std::uint32_t individual = 0; individual < 4; ++individual) {
    const render::Individual animal = render::make_individual(120, individual),
                             other = render::make_look_alike(120, individual);
    EXPECT_EQ(animal.mechanism, other.mechanism);
    EXPECT_EQ(animal.half_width, other.half_width);
    const cv::Mat1b a = animal.pattern.at_years(0) < 0, b = other.pattern.at_years(0) < 0;
    const double all = static_cast<double>(a.total()), dark = cv::countNonZero(a) / all;
    EXPECT_NEAR(cv::countNonZero(b) / all, dark, 0.08) << animal.mechanism;
    // Much of the one lies on the ground of the other.
    cv::Mat1b both;
    cv::bitwise_and(a, b, both);
    EXPECT_LT(cv::countNonZero(both) / all, 0.8 * dark) << animal.mechanism;
  }
}

TEST(KeptStrips, CarryTheDoubtAboutHowTheyWereLaidIntoThePattern) {
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("evet_kept_" + std::to_string(::getpid()));
  SetSpec spec;
  spec.world = 150, spec.individuals = 2, spec.captures = 1, spec.photo = {640, 480};
  spec.difficulty = render::Difficulty::hardest;
  const std::vector<SetStrip> made = kept_strips(spec, StripSource::pipeline, folder, 1),
                              read = kept_strips(spec, StripSource::pipeline, folder, 1);
  ASSERT_EQ(made.size(), read.size());
  bool some = false;
  for (size_t i = 0; i < made.size(); ++i) {
    EXPECT_EQ(read[i].p_laid_right, made[i].p_laid_right);
    if (!read[i].strip) continue;
    some = true;
    EXPECT_LT(read[i].p_laid_right, 1) << "a found strip is never beyond doubt";
    EXPECT_EQ(pattern_of(read[i]).p_laid_right, made[i].p_laid_right);
    EXPECT_EQ(pattern_of(read[i]).p_head_right, made[i].p_head_right);
  }
  EXPECT_TRUE(some);
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace evet::train
