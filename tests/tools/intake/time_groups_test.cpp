#include "tools/intake/time_groups.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

using Groups = std::vector<std::vector<std::string>>;

TEST(TimeGroups, APauseLongerThanTheGapPartsTwoAnimals) {
  const std::vector<TakenAt> photos{{"b.jpg", "2024-05-14T22:41:09"},
                                    {"a.jpg", "2024-05-14T22:41:00"},
                                    {"d.jpg", "2024-05-14T22:42:00"},
                                    {"c.jpg", "2024-05-14T22:41:30"}};
  EXPECT_EQ(groups_by_time(photos, 30), (Groups{{"a.jpg", "b.jpg", "c.jpg", "d.jpg"}}));
  EXPECT_EQ(groups_by_time(photos, 29), (Groups{{"a.jpg", "b.jpg", "c.jpg"}, {"d.jpg"}}));
  EXPECT_EQ(groups_by_time(photos, 8), (Groups{{"a.jpg"}, {"b.jpg"}, {"c.jpg"}, {"d.jpg"}}));
}

TEST(TimeGroups, GoesOnOverMidnight) {
  EXPECT_EQ(groups_by_time({{"a", "2024-05-14T23:59:55"}, {"b", "2024-05-15T00:00:05"}}, 30),
            (Groups{{"a", "b"}}));
}

TEST(TimeGroups, WhatHasNoTimeStandsAloneAndLast) {
  EXPECT_EQ(groups_by_time({{"IMG 10", ""}, {"IMG 9", "yesterday"}, {"x", "2024-05-14T22:41:00"}}, 3600),
            (Groups{{"x"}, {"IMG 9"}, {"IMG 10"}}));
}

TEST(TimeGroups, TheSameOrderOfArrivalOrNot) {
  std::vector<TakenAt> photos;
  for (int i = 0; i < 40; ++i)
    photos.push_back({"p" + std::to_string(i), "2024-05-14T22:" + std::to_string(10 + i) + ":00"});
  const Groups once = groups_by_time(photos, 60);
  std::reverse(photos.begin(), photos.end());
  EXPECT_EQ(groups_by_time(photos, 60), once);
}

TEST(TimeGroups, ANightLastsUntilThreeInTheAfternoon) {
  EXPECT_EQ(night_of("2024-05-14T22:41:00"), "2024-05-14");
  EXPECT_EQ(night_of("2024-05-15T00:10:00"), "2024-05-14");
  EXPECT_EQ(night_of("2024-05-15T14:59:59"), "2024-05-14");
  EXPECT_EQ(night_of("2024-05-15T15:00:00"), "2024-05-15");
  EXPECT_EQ(night_of("2024-03-01T06:00:00"), "2024-02-29");
  EXPECT_EQ(night_of("0000:00:00"), "");
  EXPECT_EQ(night_of(""), "");
}

TEST(TimeGroups, AClockTimeIsReadWholeOrNotAtAll) {
  EXPECT_EQ(clock_seconds("1970-01-02T00:00:01"), 86'401);
  for (const char* wrong : {"2024-05-14", "2024-05-14T24:00:00", "2024-05-14T22:61:00", "2024-13-14T22:00:00",
                            "2024-05-14 22:00:00"})
    EXPECT_EQ(clock_seconds(wrong), -1) << wrong;
}

TEST(TimeGroups, NamesAreCountedAsPeopleCount) {
  EXPECT_TRUE(counted_before("IMG 9.jpg", "IMG 10.jpg"));
  EXPECT_FALSE(counted_before("IMG 10.jpg", "IMG 9.jpg"));
  EXPECT_FALSE(counted_before("IMG 9.jpg", "IMG 9.jpg"));
  EXPECT_TRUE(counted_before("IMG 009.jpg", "IMG 10.jpg"));
  EXPECT_NE(counted_before("IMG 09.jpg", "IMG 9.jpg"), counted_before("IMG 9.jpg", "IMG 09.jpg"));
}

}  // namespace
}  // namespace evet
