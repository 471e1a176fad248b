#include "models/capture_histories.h"

#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "models/base/input_error.h"
#include "models/histories_csv.h"

namespace evet::models {
namespace {

std::string message_of(const std::string& text) {
  std::istringstream input(text);
  try {
    read_histories_csv(input);
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

CaptureHistories read(const std::string& text) {
  std::istringstream input(text);
  return read_histories_csv(input);
}

const char* const kSheet =
    "\xEF\xBB\xBF"
    "animal;sex;2026-04-12;svl_mm;2026-04-13;2026-05-01;lost\r\n"
    "#effort;;20;;24;22.5;\r\n"
    "#period;;1;;1;2;\r\n"
    "N-001;female;1;71.5;0;1;\r\n"
    "\"N-2, the big one\";male;0;;1;0;1\r\n";

TEST(HistoriesCsv, ReadsOccasionsGroupsCovariatesLossesAndPeriods) {
  const CaptureHistories histories = read(kSheet);
  EXPECT_EQ(histories.occasions, (std::vector<std::string>{"2026-04-12", "2026-04-13", "2026-05-01"}));
  EXPECT_EQ(histories.dates, histories.occasions);
  EXPECT_EQ(histories.primary, (std::vector<int>{0, 0, 1}));
  EXPECT_EQ(histories.primary_count(), 2);
  EXPECT_EQ(histories.occasion_covariates.at("effort"), (std::vector<double>{20, 24, 22.5}));
  EXPECT_EQ(histories.animals, (std::vector<std::string>{"N-001", "N-2, the big one"}));
  EXPECT_EQ(histories.groups.at("sex"), (std::vector<std::string>{"female", "male"}));
  EXPECT_EQ(histories.covariates.at("svl_mm")[0], 71.5);
  EXPECT_TRUE(std::isnan(histories.covariates.at("svl_mm")[1]));
  EXPECT_EQ(histories.caught, (std::vector<std::uint8_t>{1, 0, 1, 0, 1, 0}));
  EXPECT_FALSE(histories.was_lost(0));
  EXPECT_TRUE(histories.was_lost(1));
}

TEST(HistoriesCsv, WritesWhatItReads) {
  const CaptureHistories histories = read(kSheet);
  std::ostringstream first;
  write_histories_csv(histories, first);
  std::ostringstream second;
  write_histories_csv(read(first.str()), second);
  EXPECT_EQ(first.str(), second.str());
  EXPECT_EQ(read(first.str()).groups, histories.groups);
}

TEST(HistoriesCsv, PeriodAndNightInTheHeader) {
  const CaptureHistories histories = read("animal,night 1.1,night 1.2,night 3.1\na,1,0,0\n");
  EXPECT_EQ(histories.primary, (std::vector<int>{0, 0, 1}));
  EXPECT_TRUE(histories.dates.empty());
}

TEST(HistoriesCsv, EveryBadCellIsNamedWithItsLine) {
  const std::string message = message_of("animal,1,2\na,1,x\nb,0,0\n,1,1\nc,1\n#effort,3,lots\n");
  for (const char* part : {"line 2: column '2' holds 'x'", "line 3: animal 'b' was never caught", "line 4",
                           "line 5: it has 2 cells", "line 6: 'lots' is not a number"})
    EXPECT_NE(message.find(part), std::string::npos) << part << "\n" << message;
}

TEST(HistoriesCsv, RefusesWhatIsNotATable) {
  EXPECT_NE(message_of("").find("empty"), std::string::npos);
  EXPECT_NE(message_of("name,1,2\na,1,1\n").find("no column 'animal'"), std::string::npos);
  EXPECT_NE(message_of("animal,sex\na,female\n").find("no occasion column"), std::string::npos);
  EXPECT_NE(message_of("animal,1,1\na,1,1\n").find("twice"), std::string::npos);
  EXPECT_NE(message_of("animal,1\n\"a,1\n").find("does not close"), std::string::npos);
  EXPECT_NE(message_of("animal,1\na,1\na,1\n").find("twice"), std::string::npos);
  EXPECT_NE(message_of("animal,2026-04-12,2026-04-11\na,1,1\n").find("time order"), std::string::npos);
  EXPECT_NE(message_of("animal,2.1,1.1\na,1,1\n").find("time order"), std::string::npos);
  EXPECT_NE(message_of("animal,2026-02-30\na,1\n").find("not a date"), std::string::npos);
  EXPECT_NE(message_of("animal,1,lost\na,1,perhaps\n").find("'lost' holds"), std::string::npos);
}

TEST(CaptureHistories, CheckNamesWhatDoesNotFit) {
  CaptureHistories histories = histories_from_counts({{"10", 1}, {"11", 1}});
  EXPECT_NO_THROW(histories.check());
  const auto refused = [&](auto spoil) {
    CaptureHistories spoilt = histories;
    spoil(spoilt);
    EXPECT_THROW(spoilt.check(), InputError);
  };
  refused([](CaptureHistories& h) { h.caught[0] = 2; });
  refused([](CaptureHistories& h) { h.caught.pop_back(); });
  refused([](CaptureHistories& h) { h.lost = {1}; });
  refused([](CaptureHistories& h) { h.primary = {0, 2}; });
  refused([](CaptureHistories& h) { h.primary = {1, 1}; });
  refused([](CaptureHistories& h) { h.groups["sex"] = {"female"}; });
  refused([](CaptureHistories& h) { h.covariates["svl_mm"] = {70}; });
  refused([](CaptureHistories& h) { h.occasion_covariates["effort"] = {1, 2, 3}; });
  refused([](CaptureHistories& h) { h.dates = {"2026-04-12", "soon"}; });
  refused([](CaptureHistories& h) { h.occasions.clear(); });
  EXPECT_THROW(histories_from_counts({{"10", 1}, {"1x", 1}}), InputError);
  EXPECT_THROW(histories_from_counts({}), InputError);
}

TEST(CaptureHistories, AWindowOfOccasionsKeepsOnlyWhatWasCaughtInIt) {
  CaptureHistories histories = histories_from_counts({{"1001", 1}, {"0110", 1}, {"0001", 1}});
  histories.lost = {1, 1, 0};
  const CaptureHistories window = select_occasions(histories, 0, 2);
  EXPECT_EQ(window.caught, (std::vector<std::uint8_t>{0, 1, 1, 0}));
  EXPECT_EQ(window.lost,
            (std::vector<std::uint8_t>{0, 0}));  // caught again later, so released within the window
}

// A program goes by the codes; the words are for people.
TEST(HistoriesCsv, EachComplaintHasItsPlaceACodeAndArguments) {
  std::istringstream input("animal,1,2\na,1,x\nb,0,0\n");
  try {
    read_histories_csv(input);
    FAIL() << "taken";
  } catch (const InputError& error) {
    ASSERT_EQ(error.complaints().size(), 2u);
    EXPECT_EQ(error.complaints()[0].place, "line 2");
    EXPECT_EQ(error.complaints()[0].wrong.code(), "column_holds");
    EXPECT_EQ(error.complaints()[0].wrong.argument("cell"), "x");
    EXPECT_EQ(error.complaints()[1].wrong.code(), "animal_never_caught");
    EXPECT_EQ(error.complaints()[1].right.code(), "leave_it_out");
    EXPECT_EQ(error.right().code(), "nothing_taken");
    EXPECT_EQ(error.message().words(), error.what());
  }
}

// What would be read in silence, or wrongly: each named with its line.
TEST(HistoriesCsv, EveryWrongThingIsNamed) {
  const auto complaint = [](const std::string& text) -> std::string {
    std::istringstream input(text);
    try {
      read_histories_csv(input);
    } catch (const InputError& error) {
      return error.what();
    }
    return "taken";
  };
  const std::string nul("animal,1,2\na\0b,1,0\n", 19);
  for (const auto& [text, says] : {
           std::pair<std::string, std::string>{"animal,2,1\na,1,0\n", "occasion '1' stands after '2'"},
           {"animal,2031-05-02,2031-05-01\na,1,0\n", "occasion '2031-05-01' stands after '2031-05-02'"},
           {"animal,1.2,1.1\na,1,0\n", "occasion '1.1' stands after '1.2'"},
           {"animal,2031-05-02,3\na,1,0\n", "are headed in different ways"},
           {"animal,1,2\n#period,1.2,2\na,1,0\n", "period '1.2' is no number of a period"},
           {"animal,1,2\n#period,1,1e300\na,1,0\n", "period '1e300' is no number of a period"},
           {"animal,1,2\n#effort,1,2\n#effort,1,2\na,1,0\n", "row #effort stands there twice"},
           {"animal,1,2,svl_mm\na,1,0,60.5\nb,1,0,NaN\n", "column 'svl_mm' holds 'NaN'"},
           {"animal,1,2,svl_mm\na,1,0,60.5\nb,1,0,inf\n", "column 'svl_mm' holds 'inf'"},
           {"animal;1;2;svl_mm\na;1;0;60,5\nb;1;0;61,5\n", "column 'svl_mm' holds '60,5'"},
           {"animal,1,2\n#unsettled,0,1.5\na,1,0\n", "#unsettled is no number of captures"},
           {nul, "a sign that cannot be printed"},
       })
    EXPECT_NE(complaint(text).find(says), std::string::npos) << text << complaint(text);
  EXPECT_EQ(complaint("animal,1,2,pond\na,1,0,1\nb,1,0,A\n"), "taken") << "a group may have a level '1'";
  std::string wide = "animal";
  for (int j = 0; j < 100000; ++j) wide += "," + std::to_string(j + 1);
  EXPECT_NE(complaint(wide + "\n").find("100001 columns"), std::string::npos);
}

}  // namespace
}  // namespace evet::models
