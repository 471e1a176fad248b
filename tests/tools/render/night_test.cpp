// Nights on disk are what the program reads, and what the truth says of them.
#include "tools/render/night.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <opencv2/imgproc.hpp>
#include <set>

#include "matcher/photo/decode.h"
#include "tests/tools/render/set_files.h"
#include "tools/intake/night_columns.h"
#include "tools/intake/read_sheet.h"
#include "tools/render/individual.h"

namespace evet::render {
namespace {

class Night : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("evet_night_" + std::to_string(::getpid()));
    std::filesystem::remove_all(folder_);
    options_.size = {320, 240};
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  std::filesystem::path folder_;
  SmallNightOptions options_;
};

TEST_F(Night, SheetIsReadWithoutAComplaint) {
  std::vector<NightPhoto> photos = small_night(options_);
  photos[1].notes = "tail nick, left; \"old\" scar\nsecond line";
  photos[2].svl_mm = "63";
  const std::string text = night_sheet(photos);
  const Sheet sheet = read_sheet(text, kToday);
  ASSERT_TRUE(sheet.problems.empty()) << sheet.problems[0].sentence();
  ASSERT_EQ(sheet.rows.size(), 3U);
  EXPECT_EQ(sheet.rows[1].notes, photos[1].notes);
  EXPECT_EQ(sheet.rows[2].svl_mm, 63);
  EXPECT_EQ(sheet.rows[0].capture, "C1");
  // No rendered animal comes to harm, and what was done on a night is not drawn.
  std::set<std::string> left_out(night_columns().begin(), night_columns().end());
  left_out.insert("released");
  std::string header;
  for (const std::string& name : sheet_columns())
    if (!left_out.contains(name)) header += (header.empty() ? "" : ",") + name;
  EXPECT_EQ(text.substr(0, text.find('\n')), header);
}

TEST_F(Night, IsTheSameOnAnyNumberOfThreads) {
  const std::vector<NightPhoto> photos = small_night(options_);
  const auto truth = write_night(folder_ / "one", photos), again = write_night(folder_ / "two", photos, 2);
  EXPECT_EQ(truth.dump(), again.dump());
  for (const char* name :
       {"sheet.csv", "photos/IMG_0001.JPG", "photos/IMG_0002.JPG", "photos/IMG_0003.JPG"}) {
    EXPECT_FALSE(bytes_of(folder_ / "one" / name).empty()) << name;
    EXPECT_EQ(bytes_of(folder_ / "one" / name), bytes_of(folder_ / "two" / name)) << name;
  }
}

TEST_F(Night, PhotosLieUprightUnderTheirExifOrientation) {
  options_.individuals = {4, 4, 4, 4, 4, 4, 4, 4};
  options_.size = {240, 320};
  std::vector<NightPhoto> photos = small_night(options_);
  for (std::size_t i = 0; i < 8; ++i) photos[i].orientation = static_cast<int>(i) + 1;
  write_night(folder_, photos, 2);
  cv::Mat3b first;
  for (const NightPhoto& p : photos) {
    const std::string bytes = bytes_of(folder_ / "photos" / p.photo);
    const Photo photo = decode_photo(std::as_bytes(std::span(bytes)), p.photo);
    ASSERT_EQ(photo.bgr.size(), options_.size) << p.photo;
    if (first.empty()) first = photo.bgr;
    cv::Mat away;
    cv::absdiff(photo.bgr, first, away);
    EXPECT_LT(cv::mean(away.reshape(1))[0], 3) << "orientation " << p.orientation;
  }
}

TEST_F(Night, TruthNamesTheAnimalAndLiesOnTheBelly) {
  std::vector<NightPhoto> photos = small_night(options_);
  photos[2].spec.subject = Subject::empty_tray;
  const auto truth = write_night(folder_, photos);
  ASSERT_EQ(truth.size(), 3U);
  EXPECT_EQ(truth[0]["photo"], "IMG_0001.JPG");
  EXPECT_EQ(truth[0]["capture"], "C1");
  EXPECT_EQ(truth[1]["individual"], 1);
  EXPECT_TRUE(truth[2]["individual"].is_null());
  EXPECT_TRUE(truth[2]["midline"].empty());
  EXPECT_TRUE(truth[2]["outline"].empty());
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(truth[i]["midline"].size(), 65U);
    std::vector<cv::Point2f> outline;
    for (const auto& p : truth[i]["outline"]) outline.emplace_back(p[0], p[1]);
    ASSERT_GE(outline.size(), 8U);
    const cv::Mat1b belly = render(photos[i].spec).truth.belly;
    EXPECT_NEAR(cv::contourArea(outline), cv::countNonZero(belly), 0.08 * cv::countNonZero(belly));
    for (std::size_t k = 8; k <= 56; k += 8) {
      const auto& p = truth[i]["midline"][k];
      EXPECT_GE(cv::pointPolygonTest(outline, cv::Point2f(p[0], p[1]), false), 0) << i << " at " << k;
    }
  }
}

}  // namespace
}  // namespace evet::render
