// What was done on a night, written on its sheet: kept as `evet night` would keep it.
#include "tools/intake/sheet_nights.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/tools/evet/try_evet.h"
#include "tools/intake/read_sheet.h"

namespace evet {
namespace {

using namespace try_out;
using testing::HasSubstr;

using std::chrono::January;
constexpr SheetOptions kToday{
    .today = std::chrono::year_month_day{std::chrono::year(2026), January, std::chrono::day(15)}};

Sheet sheet_with(const std::string& columns, const std::string& first, const std::string& second) {
  return read_sheet("photo,site,pond,night,licence," + columns + "\na.jpg,Alder Fen,north,2024-05-14,L-7," +
                        first + "\nb.jpg,Alder Fen,north,2024-05-14,L-7," + second + "\n",
                    kToday);
}

TEST(SheetNights, OneRowSpeaksForTheNight) {
  const Sheet sheet = sheet_with("weather,effort", "overcast,", ",12");
  ASSERT_TRUE(sheet.problems.empty()) << sheet.problems[0].sentence();
  ASSERT_EQ(sheet.nights.size(), 1u);
  EXPECT_EQ(sheet.nights[0].said.at("weather").text, "overcast");
  EXPECT_EQ(sheet.nights[0].said.at("effort").line, 3u);
}

TEST(SheetNights, RowsThatContradictEachOtherAreNamed) {
  const Sheet sheet = sheet_with("weather", "overcast", "clear");
  ASSERT_EQ(sheet.problems.size(), 1u);
  EXPECT_EQ(
      sheet.problems[0].sentence(),
      "line 3, weather: line 2 says 'overcast' of the same night; write it once, or the same on every row");
}

TEST(SheetNights, AValueThatCannotBeIsNamedAsEvetNightNamesIt) {
  for (const auto& [column, text] : std::vector<std::pair<std::string, std::string>>{
           {"effort", "many"}, {"effort", "-3"}, {"air_c", "200"}, {"weather", std::string(2000, 'x')}}) {
    const Sheet sheet = sheet_with(column, text, "");
    ASSERT_EQ(sheet.problems.size(), 1u) << column << " " << text.substr(0, 20);
    EXPECT_EQ(sheet.problems[0].line, 2u);
    EXPECT_EQ(sheet.problems[0].column, column);
    EXPECT_TRUE(sheet.nights[0].said.empty());
  }
}

struct ASheet : testing::Test {
  Pond pond{false};
  std::string file = (pond.folder.path / "night.csv").string();

  Answered take(const std::string& weather, std::vector<std::string> more = {}) const {
    write(file,
          "photo,site,pond,night,licence,weather,effort,effort_unit\n"
          "A0000-0.jpg,Alder Fen,north,2024-05-01,L-7,\"" +
              weather + "\",12,trap nights\nnone,Alder Fen,south,2024-05-01,L-7,fog,,\n");
    std::vector<std::string> args{"intake", pond.path, file, photos_folder(), "--by", "KM"};
    args.insert(args.end(), more.begin(), more.end());
    return try_out::evet(args);
  }
  nlohmann::json facts(const std::string& where = "north") const {
    return try_out::evet({"night", pond.path, "--pond", where, "--json"}).json()["facts"];
  }
};

TEST_F(ASheet, WritesDownWhatWasDone) {
  const Answered taken = take("overcast");
  ASSERT_EQ(taken.exit, 0) << taken.err;
  EXPECT_EQ(facts(),
            (nlohmann::json{{"weather", "overcast"}, {"effort", 12}, {"effort_unit", "trap nights"}}));
  EXPECT_EQ(facts("south"), (nlohmann::json{{"weather", "fog"}, {"licence", "L-7"}}))
      << "a place where nothing was caught as well";
  EXPECT_THAT(taken.err, HasSubstr("written down of the night of 2024-05-01"));
}

TEST_F(ASheet, TakenInAgainMendsWhatChangedAndRepeatsNothing) {
  ASSERT_EQ(take("overcast").exit, 0);
  ASSERT_EQ(take("overcast, calm").exit, 0);
  EXPECT_EQ(facts()["weather"], "overcast, calm");
  ASSERT_EQ(try_out::evet({"night", pond.path, "--pond", "north", "--weather", "rain", "--by", "KM"}).exit,
            0);
  ASSERT_EQ(take("overcast, calm").exit, 0);
  EXPECT_EQ(facts()["weather"], "rain") << "the very sheet that is known already says nothing new";
  EXPECT_EQ(try_out::evet({"audit", pond.path}).exit, 0);
}

TEST_F(ASheet, AWrongValueStopsTheIntake) {
  write(file, "photo,site,night,licence,effort\nA0000-0.jpg,Alder Fen,2024-05-01,L-7,many\n");
  const Answered refused = try_out::evet({"intake", pond.path, file, photos_folder(), "--by", "KM"});
  EXPECT_EQ(refused.exit, 3);
  EXPECT_THAT(refused.err, HasSubstr("line 2, effort: 'many' is not a number"));
}

}  // namespace
}  // namespace evet
