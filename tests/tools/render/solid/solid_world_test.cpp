// What the solid world promises beyond the conventions: bytes that repeat, patterns that only grow, animals
// that differ, difficulties that hold.
#include "tools/render/solid/solid_world.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <opencv2/imgproc.hpp>
#include <regex>
#include <stdexcept>
#include <thread>

#include "tools/render/jpeg.h"
#include "tools/render/photo_set.h"
#include "tools/render/photo_truth.h"
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

// A picture of a training sample is to cost well under a second of one core; ten times that is a fault, also
// in builds with checks.
TEST(SolidWorld, APictureCostsSecondsAtMost) {
  CaptureSpec spec = spec_of(8, Difficulty::hardest);
  spec.size = {448, 336};
  const std::clock_t start = std::clock();
  for (spec.capture = 0; spec.capture < 4; ++spec.capture) render(spec);
  const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC / 4;
  RecordProperty("seconds_a_picture", std::to_string(seconds));
  EXPECT_LT(seconds, 5);
}

TEST(SolidWorld, ASetSaysWhichWorldItIsOf) {
  PhotoSetOptions options;
  options.individuals = 1;
  options.captures = 1;
  options.size = {96, 72};
  options.world = World::solid;
  const std::filesystem::path folder = std::filesystem::path(::testing::TempDir()) / "solid_set";
  std::filesystem::remove_all(folder);
  EXPECT_EQ(write_photo_set(folder, options), 1);
  const auto json = [](const std::filesystem::path& path) {
    std::ifstream file(path);
    return nlohmann::json::parse(file);
  };
  EXPECT_EQ(json(folder / "set.json").at("world_kind"), "solid");
  EXPECT_EQ(json(folder / "truth" / "A0000-0.json").at("world_kind"), "solid");
  options.world = World::drawn;
  EXPECT_THROW(write_photo_set(folder, options), std::invalid_argument);
  EXPECT_THROW(world_named("flat"), std::invalid_argument);
  std::filesystem::remove_all(folder);
}

class GroundPhotos : public ::testing::Test {
 protected:
  void SetUp() override {
    // Of its own: tests run side by side.
    folder_ =
        std::filesystem::path(::testing::TempDir()) /
        ("solid_grounds_" + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override {
    unsetenv("EVET_GROUNDS");
    std::filesystem::remove_all(folder_);
  }
  std::filesystem::path folder_;
};

TEST_F(GroundPhotos, LieUnderTheAnimalsOfSomePicturesAndChangeNoTruth) {
  cv::Mat3b stripes(300, 400);
  for (int y = 0; y < stripes.rows; ++y)
    for (int x = 0; x < stripes.cols; ++x)
      stripes(y, x) = x / 20 % 2 ? cv::Vec3b(230, 40, 200) : cv::Vec3b(20, 200, 30);
  const std::vector<unsigned char> bytes = encode_jpeg(stripes, 90);
  std::ofstream(folder_ / "stripes.jpg", std::ios::binary)
      .write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  int changed = 0;
  for (std::uint32_t i = 0; i < 10; ++i) {
    CaptureSpec spec = spec_of(i);
    spec.size = {96, 72};
    const RenderedPhoto without = render(spec);
    setenv("EVET_GROUNDS", folder_.c_str(), 1);
    const RenderedPhoto with = render(spec), again = render(spec);
    unsetenv("EVET_GROUNDS");
    EXPECT_TRUE(same(with.bgr, again.bgr));
    EXPECT_TRUE(same(with.truth.belly, without.truth.belly));
    EXPECT_TRUE(same(with.truth.dark, without.truth.dark));
    changed += !same(with.bgr, without.bgr);
  }
  EXPECT_GT(changed, 2);
}

TEST_F(GroundPhotos, AFolderWithoutPicturesIsNamed) {
  setenv("EVET_GROUNDS", folder_.c_str(), 1);
  try {
    for (std::uint32_t i = 0; i < 12; ++i) {
      CaptureSpec spec = spec_of(i);
      spec.size = {64, 48};
      render(spec);
    }
    FAIL() << "an empty folder was taken";
  } catch (const std::runtime_error& error) {
    EXPECT_THAT(error.what(), ::testing::HasSubstr(folder_.string()));
    EXPECT_THAT(error.what(), ::testing::HasSubstr("fetch_grounds.sh"));
  }
}

TEST_F(GroundPhotos, ABrokenPictureIsNamed) {
  std::ofstream(folder_ / "broken.jpg") << "no picture";
  setenv("EVET_GROUNDS", folder_.c_str(), 1);
  try {
    for (std::uint32_t i = 0; i < 12; ++i) {
      CaptureSpec spec = spec_of(i);
      spec.size = {64, 48};
      render(spec);
    }
    FAIL() << "a broken picture was taken";
  } catch (const std::runtime_error& error) {
    EXPECT_THAT(error.what(), ::testing::HasSubstr("broken.jpg"));
  }
}

// What has learnt one world can be scored on the other only as long as they are drawn apart.
TEST(SolidWorld, SharesNothingWithTheDrawnWorldButItsWordsAndFiles) {
  const std::filesystem::path render = std::filesystem::path(EVET_SOURCE_DIR) / "tools" / "render";
  const std::regex include(R"re(#include "(tools/render/[^"]+)")re");
  int solid_files = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(render)) {
    const std::string ending = entry.path().extension();
    if (ending != ".cpp" && ending != ".h") continue;
    const bool in_solid = entry.path().parent_path().filename() == "solid";
    solid_files += in_solid;
    std::ifstream file(entry.path());
    for (std::string line; std::getline(file, line);) {
      std::smatch match;
      if (!std::regex_search(line, match, include)) continue;
      const std::string target = match[1];
      const bool of_solid = target.rfind("tools/render/solid/", 0) == 0;
      if (in_solid) {
        EXPECT_TRUE(of_solid || target == "tools/render/scene.h" || target == "tools/render/jpeg.h")
            << entry.path() << " includes " << target;
      } else if (entry.path().filename() != "worlds.cpp") {
        EXPECT_FALSE(of_solid) << entry.path() << " includes " << target;
      }
    }
  }
  EXPECT_GT(solid_files, 30);
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
