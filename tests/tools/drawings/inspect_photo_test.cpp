#include "tools/drawings/inspect_photo.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/photo/encode.h"
#include "tests/matcher/base/still_env.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

struct InspectPhoto : testing::Test {
  // of this process alone: tests run side by side
  fs::path folder = fs::path(testing::TempDir()) / ("inspect_photo_test_" + std::to_string(::getpid()));
  void SetUp() override {
    fs::remove_all(folder);
    fs::create_directories(folder);
  }
  void TearDown() override { fs::remove_all(folder); }

  fs::path save(const cv::Mat3b& picture) const {
    const fs::path path = folder / "photo.png";
    const auto bytes = encode_png(picture);
    std::ofstream(path, std::ios::binary).write(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    return path;
  }
};

TEST_F(InspectPhoto, DrawsEveryStageOfAMarkedBelly) {
  cv::Mat3b picture(800, 600, cv::Vec3b(110, 112, 108));
  cv::rectangle(picture, {240, 150, 120, 500}, cv::Scalar(40, 140, 230), cv::FILLED);
  for (int i = 0; i < 12; ++i)
    cv::circle(picture, {265 + 37 * i % 90, 180 + 38 * i}, 12, cv::Scalar(30, 32, 35), cv::FILLED);
  InspectOptions options;
  options.belly.midline = {{300, 150}, {300, 400}, {300, 650}};
  const nlohmann::json report = inspect_photo(save(picture), folder / "out", system_env(), options);
  EXPECT_EQ(report["source"], "midline");
  EXPECT_EQ(report["drawings"].size(), 7u);
  for (const auto& drawing : report["drawings"])
    EXPECT_GT(fs::file_size(folder / "out" / drawing["file"].get<std::string>()), 100u) << drawing;
  std::ifstream written(folder / "out" / "quality.json");
  EXPECT_EQ(nlohmann::json::parse(written), report);
}

TEST_F(InspectPhoto, APhotoWithoutABellySaysSoAndShowsWhereItLooked) {
  const nlohmann::json report =
      inspect_photo(save(cv::Mat3b(300, 400, cv::Vec3b(90, 90, 90))), folder / "out", system_env());
  EXPECT_FALSE(report["usable"]);
  EXPECT_FALSE(report["notes"].empty());
  EXPECT_EQ(report["drawings"].size(), 1u);
}

TEST_F(InspectPhoto, AFolderThatCannotBeMadeIsNamed) {
  const fs::path photo = save(cv::Mat3b(300, 400, cv::Vec3b(90, 90, 90)));
  try {
    inspect_photo(photo, photo / "out", system_env());  // under a file
    FAIL() << "no error";
  } catch (const Error& e) {
    EXPECT_EQ(e.kind(), ErrorKind::bad_input);
    EXPECT_NE(std::string(e.what()).find("out"), std::string::npos);
  }
  EXPECT_THROW(inspect_photo(folder / "missing.jpg", folder / "out", system_env()), Error);
}

// Whatever step fails, the failure names the file, and no part of one is left.
TEST_F(InspectPhoto, ADiskThatFailsIsToldAndLeavesNoScrap) {
  const fs::path photo = save(cv::Mat3b(300, 400, cv::Vec3b(90, 90, 90))), out = folder / "out";
  int n = 1;
  for (;; ++n) {
    fs::remove_all(out);
    testing_env::StillEnv env;
    env.fail_at = n, env.half_written = true;
    try {
      inspect_photo(photo, out, env);
      break;
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::storage);
      EXPECT_TRUE(error.item().starts_with(out.string())) << error.item();
    }
    if (!fs::exists(out)) continue;
    for (const auto& file : fs::directory_iterator(out))
      EXPECT_EQ(file.path().string().find(".part-"), std::string::npos) << file.path();
  }
  EXPECT_EQ(n, 1 + 1 + 2 * 4) << "the folder, and each of two files written, synced, renamed, and its name";
}

}  // namespace
}  // namespace evet
