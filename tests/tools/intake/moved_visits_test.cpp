// Nights that were taken in under a wrong date or place, and `evet intake --move` that mends them.
#include "tools/intake/moved_visits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "matcher/base/error.h"
#include "matcher/catalogue/known_nights.h"
#include "tests/tools/evet/try_evet.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using namespace try_out;
using testing::HasSubstr;
using testing::Not;

Answered take(const Pond& pond, const std::string& sheet, std::vector<std::string> more = {},
              Env& env = system_env()) {
  std::vector<std::string> args{"intake", pond.path, sheet, photos_folder(), "--by", "KM", "--json"};
  args.insert(args.end(), more.begin(), more.end());
  return try_out::evet(args, env);
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
  for (size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
  return text;
}

// The first night's sheet with another date (or place) in every row.
std::string first_night_at(const Pond& pond, const std::string& night, const std::string& place = "north") {
  const std::string path = (pond.folder.path / ("sheet " + night + " " + place + ".csv")).string();
  write(path, changed(changed(read(first_sheet()), "2024-05-01", night), ",north,", "," + place + ","));
  return path;
}

nlohmann::json histories(const Pond& pond, std::vector<std::string> more = {}) {
  std::vector<std::string> args{"histories", pond.path, "--json"};
  args.insert(args.end(), more.begin(), more.end());
  return try_out::evet(args).json();
}

std::vector<std::string> nights(const Pond& pond, std::vector<std::string> more = {}) {
  return histories(pond, std::move(more))["occasions"];
}

size_t entries(const Pond& pond) {
  return Catalogue::open(pond.path, system_env()).ledger().size();
}

void settle_all(const Pond& pond) {
  for (const char* capture : {"c1", "c2", "c3"})
    ASSERT_EQ(try_out::evet({"verdict", pond.path, capture, "new", "--by", "KM"}).exit, 0);
}

using Nights = std::vector<std::string>;

TEST(MovedNight, IsRefusedUnlessItIsAskedForAndThenLeavesNoNightBehind) {
  const Pond pond(true);
  settle_all(pond);
  EXPECT_EQ(nights(pond), Nights{"2024-05-01"});
  const std::string mended = first_night_at(pond, "2024-05-02");
  const size_t before = entries(pond);

  const Answered refused = take(pond, mended);
  EXPECT_EQ(refused.exit, 3);
  EXPECT_THAT(refused.err,
              HasSubstr("in capture 'c1' of 2024-05-01 at Alder Fen, north; leave the row out, mend "
                        "its night and place, or say --move if the sheet is right"));
  EXPECT_EQ(entries(pond), before);

  const Answered moved = take(pond, mended, {"--move"});
  EXPECT_EQ(moved.exit, 0) << moved.err;
  EXPECT_EQ(moved.json()["captures"]["known"], 3);
  EXPECT_EQ(moved.json()["photos"]["new"], 0);
  EXPECT_THAT(moved.err, HasSubstr("night is now \"2024-05-02\""));
  EXPECT_EQ(nights(pond), Nights{"2024-05-02"});
  EXPECT_EQ(histories(pond)["animals"].size(), 3u);  // the verdicts went with their captures
  EXPECT_EQ(try_out::evet({"audit", pond.path}).exit, 0);

  const size_t after = entries(pond);
  EXPECT_EQ(take(pond, mended, {"--move"}).exit, 0);
  EXPECT_EQ(take(pond, mended).exit, 0);
  EXPECT_EQ(entries(pond), after);  // there already
  EXPECT_EQ(take(pond, first_sheet()).exit, 3);
}

TEST(MovedNight, MovedTwiceAndBackStandsWhereTheLastSheetSays) {
  const Pond pond(true);
  settle_all(pond);
  EXPECT_EQ(take(pond, first_night_at(pond, "2024-05-02"), {"--move"}).exit, 0);
  EXPECT_EQ(take(pond, first_night_at(pond, "2024-05-03"), {"--move"}).exit, 0);
  EXPECT_EQ(nights(pond), Nights{"2024-05-03"});
  EXPECT_EQ(take(pond, first_sheet(), {"--move"}).exit, 0);
  EXPECT_EQ(nights(pond), Nights{"2024-05-01"});
}

TEST(MovedNight, ToAnotherPlaceLeavesNoVisitToTheFirst) {
  const Pond pond(true);
  settle_all(pond);
  EXPECT_EQ(take(pond, first_night_at(pond, "2024-05-01", "south"), {"--move"}).exit, 0);
  EXPECT_EQ(nights(pond, {"--site", "Alder Fen", "--pond", "south"}), Nights{"2024-05-01"});
  const Answered north = try_out::evet({"histories", pond.path, "--site", "Alder Fen", "--pond", "north"});
  EXPECT_EQ(north.exit, 3) << north.out;
  const Answered report = try_out::evet(
      {"report", pond.path, "--pond", "south", "--out", (pond.folder.path / "night.html").string()});
  EXPECT_EQ(report.exit, 0) << report.err;
  const std::string page = read(pond.folder.path / "night.html");
  EXPECT_THAT(page, HasSubstr("sheet 2024-05-01 south.csv"));
  EXPECT_THAT(page, Not(HasSubstr("first.csv")));
}

nlohmann::json facts(const Pond& pond, const std::string& night, const std::string& where = "north") {
  return try_out::evet({"night", pond.path, "--night", night, "--pond", where, "--json"}).json()["facts"];
}

TEST(MovedNight, WhatWasDoneThatNightGoesWithIt) {
  const Pond pond(true);
  settle_all(pond);
  const auto say = [&](const std::string& night, std::vector<std::string> more) {
    std::vector<std::string> args{"night", pond.path, "--night", night, "--pond", "north", "--by", "KM"};
    args.insert(args.end(), more.begin(), more.end());
    ASSERT_EQ(try_out::evet(args).exit, 0);
  };
  say("2024-05-01",
      {"--method", "bottle traps", "--weather", "overcast", "--latitude", "52.1", "--longitude", "-1.5"});
  EXPECT_EQ(take(pond, first_night_at(pond, "2024-05-02"), {"--move"}).exit, 0);
  EXPECT_EQ(
      facts(pond, "2024-05-02"),
      (nlohmann::json{
          {"method", "bottle traps"}, {"weather", "overcast"}, {"latitude", 52.1}, {"longitude", -1.5}}));
  // Of a night that has words of its own those stay; what is of a place does not go to another.
  ASSERT_EQ(take(pond, second_sheet()).exit, 0);
  say("2024-05-14", {"--weather", "rain"});
  EXPECT_EQ(take(pond, first_night_at(pond, "2024-05-14"), {"--move"}).exit, 0);
  EXPECT_EQ(facts(pond, "2024-05-14"),
            (nlohmann::json{
                {"method", "bottle traps"}, {"weather", "rain"}, {"latitude", 52.1}, {"longitude", -1.5}}));
}

TEST(MovedNight, WhatIsOfAPlaceStaysWithThePlace) {
  const Pond pond(true);
  settle_all(pond);
  ASSERT_EQ(try_out::evet({"night", pond.path, "--method", "torch", "--latitude", "52.1", "--longitude",
                           "-1.5", "--by", "KM"})
                .exit,
            0);
  EXPECT_EQ(take(pond, first_night_at(pond, "2024-05-01", "south"), {"--move"}).exit, 0);
  EXPECT_EQ(facts(pond, "2024-05-01", "south"), (nlohmann::json{{"method", "torch"}}));
}

TEST(MovedNight, OntoANightThatExistsJoinsIt) {
  const Pond pond(true);
  settle_all(pond);
  ASSERT_EQ(take(pond, second_sheet()).exit, 0);
  EXPECT_EQ(nights(pond), (Nights{"2024-05-01", "2024-05-14"}));
  EXPECT_EQ(take(pond, first_night_at(pond, "2024-05-14"), {"--move"}).exit, 0);
  EXPECT_EQ(nights(pond), Nights{"2024-05-14"});
  Catalogue catalogue = Catalogue::open(pond.path, system_env());
  EXPECT_EQ(catalogue.identities().captures.size(), 6u);
}

// One sheet for two nights, one of them wrong: the other keeps its entry, also its night without a catch.
TEST(MovedNight, WhatElseTheSheetBroughtStays) {
  const Pond pond(false);
  const std::string sheet = (pond.folder.path / "sheet.csv").string();
  const auto rows = [&](const std::string& of_c2) {
    write(sheet,
          "photo,site,pond,night,licence,capture\nA0000-0.jpg,Alder Fen,north,2024-05-01,L-7,c1\n"
          "A0001-0.jpg,Alder Fen,north," +
              of_c2 + ",L-7,c2\nnone,Alder Fen,north,2024-05-09,L-7,\n");
  };
  rows("2024-05-20");
  ASSERT_EQ(take(pond, sheet).exit, 0);
  for (const char* capture : {"c1", "c2"})
    ASSERT_EQ(try_out::evet({"verdict", pond.path, capture, "new", "--by", "KM"}).exit, 0);
  EXPECT_EQ(nights(pond), (Nights{"2024-05-01", "2024-05-09", "2024-05-20"}));
  rows("2024-05-02");
  EXPECT_EQ(take(pond, sheet, {"--move"}).exit, 0);
  EXPECT_EQ(nights(pond), (Nights{"2024-05-01", "2024-05-02", "2024-05-09"}));
}

// The sheet says that nothing was caught where its captures were put by mistake.
TEST(MovedNight, TheNightItLeavesCanBeOneWithoutACatch) {
  const Pond pond(true);
  settle_all(pond);
  const std::string sheet = first_night_at(pond, "2024-05-02");
  write(sheet, read(sheet) + "none,Alder Fen,north,2024-05-01,,,,,,KM,L-7,\n");
  const Answered moved = take(pond, sheet, {"--move"});
  EXPECT_EQ(moved.exit, 0) << moved.err;
  EXPECT_EQ(nights(pond), (Nights{"2024-05-01", "2024-05-02"}));
  EXPECT_EQ(histories(pond)["empty_nights"], nlohmann::json({"2024-05-01"}));
}

// Entries of catalogues made before intakes said where they were: dates alone.
TEST(MovedNight, AnIntakeThatDoesNotSayWhereIsMendedToo) {
  const Pond pond(true);
  settle_all(pond);
  {
    Catalogue catalogue = Catalogue::open(pond.path, system_env());
    std::vector<Body> bodies;
    for (const ListedEntry& listed : catalogue.ledger())
      if (listed.entry.kind == NightIntake::kKind) bodies.push_back(Withdrawal{listed.entry.id, "test"});
    ASSERT_EQ(bodies.size(), 1u);
    NightIntake old_form;
    old_form.sheet = "first.csv", old_form.nights = {"2024-05-01", "2024-05-08"}, old_form.captures = 3;
    bodies.push_back(old_form);
    catalogue.append(person("KM"), bodies);
  }
  EXPECT_EQ(nights(pond), (Nights{"2024-05-01", "2024-05-08"}));
  EXPECT_EQ(take(pond, first_night_at(pond, "2024-05-02"), {"--move"}).exit, 0);
  EXPECT_EQ(nights(pond), (Nights{"2024-05-02", "2024-05-08"}));
}

// A part of a night moved: the rest still stands at it.
TEST(MovedNight, ACaptureAloneLeavesTheNightToTheOthers) {
  const Pond pond(true);
  settle_all(pond);
  const std::string sheet = (pond.folder.path / "one.csv").string();
  write(sheet, "photo,site,pond,night,licence,capture\nA0000-0.jpg,Alder Fen,north,2024-05-02,L-7,c1\n");
  EXPECT_EQ(take(pond, sheet, {"--move"}).exit, 0);
  EXPECT_EQ(nights(pond), (Nights{"2024-05-01", "2024-05-02"}));
}

TEST(MovedNight, CapturesThatTheSheetCutsOtherwiseAreRefused) {
  const Pond pond(false);
  const std::string sheet = (pond.folder.path / "sheet.csv").string();
  const auto say = [&](const std::string& first, const std::string& second) {
    write(sheet, "photo,site,night,licence,capture\nA0000-0.jpg,Alder Fen," + first +
                     "\nA0001-0.jpg,Alder Fen," + second + "\n");
    return take(pond, sheet, {"--move"});
  };
  ASSERT_EQ(say("2024-05-01,L-7,c1", "2024-05-01,L-7,c1").exit, 0);
  const size_t before = entries(pond);
  const Answered cut = say("2024-05-02,L-7,c1", "2024-05-03,L-7,c2");
  EXPECT_EQ(cut.exit, 3);
  EXPECT_THAT(cut.err,
              HasSubstr("line 3, photo 'A0001-0.jpg': the picture is in the catalogue already, in capture "
                        "'c1' of 2024-05-01 at Alder Fen, but the sheet makes two captures of that, here "
                        "and on line 2; give the rows the same capture"));
  EXPECT_EQ(entries(pond), before);

  const Pond other(true);
  const std::string joined = (other.folder.path / "joined.csv").string();
  write(joined,
        "photo,site,pond,night,licence,capture\nA0000-0.jpg,Alder Fen,north,2024-05-02,L-7,c1\n"
        "A0001-0.jpg,Alder Fen,north,2024-05-02,L-7,c1\n");
  const Answered join = take(other, joined, {"--move"});
  EXPECT_EQ(join.exit, 3);
  EXPECT_THAT(join.err,
              HasSubstr("line 3, photo 'A0001-0.jpg': the picture is in the catalogue already, in capture "
                        "'c2' of 2024-05-01 at Alder Fen, north, but the sheet puts it with photos of "
                        "capture 'c1' of 2024-05-01 at Alder Fen, north; make it a capture of its own"));
}

// Killed while the new photos of a mended sheet are stored: what moved has moved whole, and the same command
// carries on.
TEST(MovedNight, KilledInTheMiddleNothingIsLostOrHalfTaken) {
  const Pond pond(true);
  settle_all(pond);
  const std::string sheet = first_night_at(pond, "2024-05-02");
  write(sheet, read(sheet) + "A0001-1.jpg,Alder Fen,north,2024-05-02,T2,c4,male,adult,67,KM,L-7,\n");
  const pid_t child = ::fork();
  if (child == 0) {
    SteadyEnv env;
    env.writes_until_failure = 0;
    env.failing = [] { ::_exit(9); };
    take(pond, sheet, {"--move", "--threads", "1"}, env);
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  ASSERT_EQ(WEXITSTATUS(status), 9);
  EXPECT_EQ(nights(pond), Nights{"2024-05-02"});
  EXPECT_EQ(histories(pond)["animals"].size(), 3u);

  const Answered again = take(pond, sheet, {"--move"});
  EXPECT_EQ(again.exit, 0) << again.err;
  EXPECT_EQ(again.json()["captures"]["new"], 1);
  EXPECT_EQ(again.json()["captures"]["known"], 3);
  EXPECT_EQ(nights(pond), Nights{"2024-05-02"});
  EXPECT_EQ(try_out::evet({"audit", pond.path}).exit, 0);
}

// The same pictures taken in on another machine with the date a day off: one capture each, and a question,
// until the right sheet is taken in with --move.
TEST(MovedNight, SettlesWhatTwoSheetsSayOfOnePicture) {
  const Pond pond(true), other(false);
  settle_all(pond);
  ASSERT_EQ(take(other, first_night_at(other, "2024-05-02")).exit, 0);
  const Answered merged = try_out::evet({"merge", pond.path, other.path, "--by", "KM", "--json"});
  ASSERT_EQ(merged.exit, 0) << merged.err;
  EXPECT_EQ(merged.json()["one_picture_two_sheets"].size(), 3u);
  EXPECT_EQ(nights(pond), (Nights{"2024-05-01", "2024-05-02"}));
  EXPECT_EQ(histories(pond)["animals"].size(), 3u);
  const Answered moved = take(pond, first_night_at(pond, "2024-05-02"), {"--move"});
  ASSERT_EQ(moved.exit, 0) << moved.err;
  EXPECT_EQ(nights(pond), Nights{"2024-05-02"});
  const Answered audited = try_out::evet({"audit", pond.path, "--json"});
  EXPECT_EQ(audited.exit, 0);
  EXPECT_EQ(audited.json()["one_picture_two_sheets"].size(), 0u);
}

TEST(MovedNight, SettlesItForTheSheetThatStandsAsWell) {
  const Pond pond(true), other(false);
  settle_all(pond);
  ASSERT_EQ(take(other, first_night_at(other, "2024-05-02")).exit, 0);
  ASSERT_EQ(try_out::evet({"merge", pond.path, other.path, "--by", "KM"}).exit, 0);
  ASSERT_EQ(take(pond, first_sheet(), {"--move"}).exit, 0);
  EXPECT_EQ(nights(pond), Nights{"2024-05-01"});
  EXPECT_EQ(try_out::evet({"audit", pond.path, "--json"}).json()["one_picture_two_sheets"].size(), 0u);
}

// As the page does it, without a sheet.
TEST(MovedNight, ByItsPlaceAndNightWithWhatWasDone) {
  const Pond pond(true);
  settle_all(pond);
  ASSERT_EQ(try_out::evet({"night", pond.path, "--weather", "fog", "--by", "KM"}).exit, 0);
  const std::string none = (pond.folder.path / "none.csv").string();
  write(none, "photo,site,pond,night,licence,observer\nnone,Alder Fen,south,2024-05-04,L-7,KM\n");
  ASSERT_EQ(take(pond, none).exit, 0);
  Catalogue catalogue = Catalogue::open(pond.path, system_env());
  const NightIntake::Visit was{"Alder Fen", "north", "2024-05-01"}, is{"Alder Fen", "north", "2024-04-01"};
  const NightIntake::Visit empty{"Alder Fen", "south", "2024-05-04"},
      there{"Alder Fen", "south", "2024-04-04"};
  catalogue.append(person("KM"), moved_visit(catalogue, was, is, "the month was wrong"));
  catalogue.append(person("KM"), moved_visit(catalogue, empty, there, "the month was wrong"));
  EXPECT_EQ(nights(pond), (Nights{"2024-04-01", "2024-04-04"})) << "and no night is left behind";
  EXPECT_EQ(catalogue.identities().individuals.size(), 3U) << "with their verdicts";
  EXPECT_EQ(night_facts_of(catalogue, is).weather, "fog");
  EXPECT_EQ(night_facts_of(catalogue, there).licence, "L-7");
  EXPECT_EQ(night_facts_of(catalogue, was), NightFacts{});
  EXPECT_THROW(moved_visit(catalogue, was, is, "again"), Error) << "nothing is there any more";
  EXPECT_THROW(moved_visit(catalogue, is, is, "nowhere"), Error);
  EXPECT_EQ(try_out::evet({"audit", pond.path}).exit, 0);
}

}  // namespace
}  // namespace evet
