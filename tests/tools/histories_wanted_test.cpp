#include "tools/evet/histories_wanted.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"

namespace evet {
namespace {

TEST(NightsWorked, AreReadWithEitherSeparatorAndAMark) {
  const auto nights =
      read_nights_worked("\xEF\xBB\xBFnight;effort\r\n2031-05-01;20\r\n2031-05-03;0\r\n", "n.csv");
  ASSERT_EQ(nights.size(), 2u);
  EXPECT_EQ(nights.at("2031-05-01"), 20);
  EXPECT_EQ(nights.at("2031-05-03"), 0);
}

TEST(NightsWorked, EachWrongLineIsNamed) {
  for (const auto& [text, says] : {std::pair{"night\n2031-05-01\n", "the column effort is missing"},
                                   {"night,effort\n2031-02-30,1\n", "line 2"},
                                   {"night,effort\n2031-05-01,-1\n", "effort '-1'"},
                                   {"night,effort\n2031-05-01,1\n2031-05-01,2\n", "there twice"},
                                   {"night,effort\n\"2031", "line 2"}}) {
    try {
      read_nights_worked(text, "n.csv");
      FAIL() << text;
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::bad_input);
      EXPECT_THAT(error.what(), testing::HasSubstr(says));
    }
  }
}

TEST(Cautions, CountWhatIsLeftOutAndWhatRestsOnTheProgramAlone) {
  HistoriesReport report;
  EXPECT_TRUE(cautions(report).empty());
  report.unsettled.resize(2), report.by_program.resize(1);
  EXPECT_THAT(cautions(report),
              testing::ElementsAre(testing::HasSubstr("2 captures are not settled"),
                                   testing::HasSubstr("1 capture was placed by the program")));
}

// What no photo can settle is not to be ranked again and again.
TEST(Cautions, SayOfEachOpenCaptureWhatCanSettleIt) {
  HistoriesReport report;
  NotedCapture open, unmatchable, contested, joined_all_the_same;
  unmatchable.usable = false;
  contested.disputed = true;
  joined_all_the_same.disputed = true, joined_all_the_same.used = true;
  report.unsettled = {open, unmatchable, unmatchable, contested};
  report.disputed = {contested, joined_all_the_same};
  EXPECT_THAT(
      cautions(report),
      testing::ElementsAre(
          "1 capture is not settled and left out; settle it with 'evet rank --accept' and 'evet verdict'",
          "2 captures are left out because no photo of them can be matched; only a person who knows the "
          "animal can settle them, with 'evet verdict'",
          "1 capture is in dispute and left out: verdicts about it contradict each other; settle that on the "
          "page of 'evet review'",
          "1 capture is in dispute: verdicts about it contradict each other; settle that on the page of "
          "'evet review'"));
}

}  // namespace
}  // namespace evet
