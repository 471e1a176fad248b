#include "tools/render/photo_set.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstring>
#include <fstream>
#include <opencv2/imgproc.hpp>
#include <set>

#include "tests/tools/render/set_files.h"
#include "tools/intake/read_sheet.h"

namespace evet::render {
namespace {

class PhotoSet : public testing::Test {
 protected:
  PhotoSet() {
    options_.individuals = 2, options_.captures = 2, options_.others = 1, options_.size = {200, 150};
  }
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("evet_set_" + std::to_string(::getpid()));
    std::filesystem::remove_all(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  std::filesystem::path folder_;
  PhotoSetOptions options_;
};

TEST_F(PhotoSet, IsTheSameOnAnyNumberOfThreadsAndReadAsASheet) {
  options_.known = true;
  EXPECT_EQ(write_photo_set(folder_ / "one", options_), 5);
  options_.threads = 3;
  EXPECT_EQ(write_photo_set(folder_ / "three", options_), 5);
  int files = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder_ / "one")) {
    if (!entry.is_regular_file()) continue;
    ++files;
    EXPECT_EQ(bytes_of(entry.path()),
              bytes_of(folder_ / "three" / entry.path().lexically_relative(folder_ / "one")))
        << entry.path();
  }
  EXPECT_EQ(files, 5 + 5 + 2);
  const Sheet sheet =
      read_sheet(bytes_of(folder_ / "one" / "sheet.csv"), {.today = std::chrono::year(2026) / 6 / 1});
  ASSERT_TRUE(sheet.problems.empty()) << sheet.problems[0].sentence();
  ASSERT_EQ(sheet.rows.size(), 5U);
  EXPECT_EQ(sheet.rows[2].individual, "A0001");
  EXPECT_EQ(sheet.rows[4].individual, "");
}

TEST_F(PhotoSet, GoesOnWhereItStopped) {
  write_photo_set(folder_, options_);
  const std::string photo = bytes_of(folder_ / "photos" / "A0001-1.jpg");
  // As if it had been stopped after the photo was begun and before its truth was written.
  std::ofstream(folder_ / "photos" / "A0001-1.jpg") << "torn";
  std::filesystem::remove(folder_ / "truth" / "A0001-1.json");
  std::filesystem::remove(folder_ / "sheet.csv");
  EXPECT_EQ(write_photo_set(folder_, options_), 1);
  EXPECT_EQ(bytes_of(folder_ / "photos" / "A0001-1.jpg"), photo);
  EXPECT_TRUE(std::filesystem::exists(folder_ / "sheet.csv"));
  EXPECT_EQ(write_photo_set(folder_, options_), 0);
}

TEST_F(PhotoSet, RefusesOtherOptionsInTheSameFolder) {
  write_photo_set(folder_, options_);
  options_.world_seed = 201;
  EXPECT_THROW(write_photo_set(folder_, options_), std::invalid_argument);
  options_.captures = 0;
  EXPECT_THROW(write_photo_set(folder_ / "other", options_), std::invalid_argument);
}

TEST_F(PhotoSet, OfForeignConditionsSaysSoAndIsNeverWild) {
  write_photo_set(folder_ / "ordinary", options_);
  EXPECT_EQ(bytes_of(folder_ / "ordinary" / "set.json").find("foreign"), std::string::npos);
  options_.conditions.foreign = true;
  EXPECT_THROW(write_photo_set(folder_ / "ordinary", options_), std::invalid_argument);
  write_photo_set(folder_ / "foreign", options_);
  EXPECT_NE(bytes_of(folder_ / "foreign" / "set.json").find("\"foreign\": true"), std::string::npos);
  options_.conditions.wild = true;
  EXPECT_THROW(write_photo_set(folder_ / "wild", options_), std::invalid_argument);
  EXPECT_FALSE(std::filesystem::exists(folder_ / "wild"));
}

TEST_F(PhotoSet, CoordinateFilesSayWhatTheTruthSays) {
  options_.coordinates = true;
  write_photo_set(folder_, options_);
  const NightPhoto p = plan_photo_set(options_)[1];
  const Truth truth = render(p.spec).truth;
  const std::string uv = bytes_of(folder_ / "truth" / "A0000-1.uv"),
                    flags = bytes_of(folder_ / "truth" / "A0000-1.mask");
  ASSERT_EQ(uv.size(), 200U * 150 * 8);
  ASSERT_EQ(flags.size(), 200U * 150);
  EXPECT_EQ(std::memcmp(uv.data(), truth.uv.ptr(), uv.size()), 0);
  int bits[4] = {};
  for (const char f : flags)
    for (int k = 0; k < 4; ++k) bits[k] += (f >> k) & 1;
  EXPECT_EQ(bits[0], cv::countNonZero(truth.animal));
  EXPECT_EQ(bits[1], cv::countNonZero(truth.belly));
  EXPECT_EQ(bits[2], cv::countNonZero(truth.clear));
  EXPECT_EQ(bits[3], cv::countNonZero(truth.dark));
}

TEST_F(PhotoSet, CapturesAreInOrderOfTimeWithinWhatTheDifficultyAllows) {
  options_.individuals = 30, options_.captures = 4, options_.others = 8;
  const std::vector<NightPhoto> photos = plan_photo_set(options_);
  std::set<Subject> others;
  for (std::size_t i = 0; i < photos.size(); ++i) {
    const CaptureSpec& spec = photos[i].spec;
    if (i >= 120) {
      others.insert(spec.subject);
      continue;
    }
    EXPECT_LE(spec.years, 1.2);
    if (spec.capture > 0) {
      EXPECT_GT(spec.years, photos[i - 1].spec.years) << photos[i].photo;
    } else {
      EXPECT_EQ(spec.years, 0) << photos[i].photo;
    }
  }
  EXPECT_EQ(others.size(), 4U);
  EXPECT_FALSE(others.contains(Subject::belly));
}

}  // namespace
}  // namespace evet::render
