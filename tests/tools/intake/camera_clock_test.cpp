#include "tools/intake/camera_clock.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/tools/evet/try_evet.h"

namespace evet {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

bool fits(const std::string& taken_at, const std::string& night = "2031-05-14") {
  return fits_night({"a.jpg", night, taken_at});
}

TEST(CameraClock, ANightLastsFromItsDateToTheNextAfternoon) {
  EXPECT_TRUE(fits("2031-05-14T22:41:07"));
  EXPECT_TRUE(fits("2031-05-14T00:00:00"));  // the date on which it began, at any hour
  EXPECT_TRUE(fits("2031-05-15T00:30:00"));
  EXPECT_TRUE(fits("2031-05-15T14:59:59"));
  EXPECT_FALSE(fits("2031-05-15T15:00:00"));
  EXPECT_FALSE(fits("2031-05-13T23:59:59"));
  EXPECT_FALSE(fits("2031-05-16T01:00:00"));
  EXPECT_FALSE(fits("2031-04-14T22:41:07"));  // the wrong month
  EXPECT_FALSE(fits("2030-05-14T22:41:07"));  // the wrong year
  EXPECT_TRUE(fits("2032-01-01T02:00:00", "2031-12-31"));
  EXPECT_TRUE(fits("2032-03-01T02:00:00", "2032-02-29"));
  EXPECT_FALSE(fits("2032-03-01T02:00:00", "2032-02-28"));
}

TEST(CameraClock, AClockThatWasNeverSetOrSaysNothingFitsEveryNight) {
  EXPECT_TRUE(fits("2016-01-01T00:00:12"));
  EXPECT_TRUE(fits("2032-06-18T12:00:00"));   // 401 days later
  EXPECT_TRUE(fits("2030-04-08T12:00:00"));   // 401 days earlier
  EXPECT_FALSE(fits("2030-04-10T12:00:00"));  // 399
  for (const char* none : {"", "2031-05-13", "0000-00-00T00:00:00", "yesterday", "2031-02-31T10:00:00"})
    EXPECT_TRUE(fits(none)) << none;
}

TEST(CameraClock, OneHintForEachNightAndDateThatDoNotFit) {
  EXPECT_THAT(camera_clock_hints({{"a.jpg", "2031-05-14", "2031-05-14T23:00:00"}}), IsEmpty());
  std::vector<std::string> hints;
  for (const Message& hint : camera_clock_hints({{"b.jpg", "2031-05-14", "2031-05-12T23:00:00"},
                                                 {"a.jpg", "2031-05-14", "2031-05-15T01:00:00"},
                                                 {"c.jpg", "2031-05-14", "2031-05-12T23:10:00"},
                                                 {"d\n.jpg", "2031-05-01", "2031-05-12T23:20:00"}})) {
    EXPECT_EQ(hint.code(), "clock_disagrees");
    hints.push_back(hint.words());
  }
  EXPECT_THAT(
      hints,
      ElementsAre(
          "by the camera's clock 1 photo of the night of 2031-05-01 was taken on 2031-05-12 "
          "('d\\n.jpg'): if the sheet's night is wrong, mend it and take the sheet in again with "
          "--move; else set the clock",
          HasSubstr("2 photos of the night of 2031-05-14 were taken on 2031-05-12 ('b.jpg' and others)")));
}

// The test night's pictures bear the renderer's dates, of 2016.
TEST(CameraClock, IntakeSaysWhatDoesNotFitAndTakesItAllTheSame) {
  const try_out::Pond pond(false);
  const std::filesystem::path sheet = pond.folder.path / "sheet.csv";
  const auto take = [&](const std::string& night) {
    try_out::write(sheet, "photo,site,night,licence\nA0000-0.jpg,Alder Fen," + night + ",L-7\n");
    const std::string at = pond.path + night;
    try_out::evet({"new", at, "--by", "KM"});
    return try_out::evet({"intake", at, sheet.string(), try_out::photos_folder(), "--by", "KM", "--json"});
  };
  const auto apart = take("2016-04-05");
  EXPECT_EQ(apart.exit, 0);
  EXPECT_EQ(apart.json()["captures"]["new"], 1);
  EXPECT_THAT(apart.json()["noticed"][0].get<std::string>(),
              HasSubstr("taken on 2016-04-15 ('A0000-0.jpg')"));
  EXPECT_THAT(apart.err, HasSubstr("with --move"));
  EXPECT_THAT(take("2016-04-15").json()["noticed"], IsEmpty());
  EXPECT_THAT(take("2024-04-15").json()["noticed"], IsEmpty());
}

}  // namespace
}  // namespace evet
