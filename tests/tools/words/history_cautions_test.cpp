#include "tools/words/history_cautions.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace evet {
namespace {

std::vector<std::string> said(const HistoriesReport& report) {
  std::vector<std::string> out;
  for (const Message& caution : cautions(report)) out.push_back(caution.words());
  return out;
}

TEST(Cautions, CountWhatIsLeftOutAndWhatRestsOnTheProgramAlone) {
  HistoriesReport report;
  EXPECT_TRUE(cautions(report).empty());
  report.unsettled.resize(2), report.by_program.resize(1);
  EXPECT_THAT(said(report), testing::ElementsAre(testing::HasSubstr("2 captures are not settled"),
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
      said(report),
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
