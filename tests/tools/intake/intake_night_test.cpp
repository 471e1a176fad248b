#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/mount.h>
#include <sys/wait.h>
#include <unistd.h>

#include <set>

#include "tests/tools/evet/try_evet.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using namespace try_out;
using testing::HasSubstr;

const std::string kHead = "photo,site,night,licence,capture,svl_mm,sex\n";

Answered intake(const std::string& pond, const std::string& sheet, const std::string& photos,
                std::vector<std::string> more = {}, Env& env = system_env()) {
  std::vector<std::string> args{"intake", pond, sheet, photos, "--by", "KM", "--json"};
  args.insert(args.end(), more.begin(), more.end());
  return try_out::evet(args, env);
}

// Every entry of the ledger as text, ids and hashes and all.
std::string ledger_text(const std::string& pond) {
  Catalogue catalogue = Catalogue::open(pond, system_env());
  std::string text;
  for (const ListedEntry& listed : catalogue.ledger())
    text += listed.entry.kind + " " + listed.entry.time + " " + listed.entry.hash + " " + listed.entry.body +
            "\n";
  return text;
}

size_t entries(const std::string& pond) {
  return Catalogue::open(pond, system_env()).ledger().size();
}

TEST(Intake, TakesANightAndNamesThePhotosThatCannotBeMatched) {
  const Pond pond(true);
  const auto answered = intake(pond.path, second_sheet(), photos_folder());
  ASSERT_EQ(answered.exit, 0) << answered.err;
  const auto said = answered.json();
  EXPECT_EQ(said["captures"]["new"], 3);
  EXPECT_EQ(said["photos"]["new"], 3);
  EXPECT_EQ(said["nights"], nlohmann::json({"2024-05-14"}));
  EXPECT_EQ(said["places"], nlohmann::json({"Alder Fen, north"}));
  ASSERT_EQ(said["looked_at"].size(), 3u);
  EXPECT_TRUE(said["looked_at"][0]["usable"]);
  EXPECT_TRUE(said["looked_at"][1]["usable"]);
  EXPECT_FALSE(said["looked_at"][2]["usable"]);
  EXPECT_EQ(said["looked_at"][2]["photo"], "tray.jpg");
  EXPECT_TRUE(said["looked_at"][2]["notes"][0]["blocks"]);
  Catalogue catalogue = Catalogue::open(pond.path, system_env());
  const Identities& who = catalogue.identities();
  EXPECT_EQ(who.captures.size(), 6u);
  for (const CaptureState& capture : who.captures)
    if (capture.facts.name == "c2") {
      EXPECT_EQ(capture.facts.svl_mm, 66.5);
      EXPECT_EQ(capture.facts.notes, "tail tip missing, healed");
      EXPECT_EQ(capture.facts.pond, "north");
    }
}

TEST(Intake, TheSameNightTwiceAddsNothing) {
  const Pond pond(true);
  const std::string before = ledger_text(pond.path);
  const auto again = intake(pond.path, first_sheet(), photos_folder());
  EXPECT_EQ(again.exit, 0);
  EXPECT_EQ(again.json()["captures"]["new"], 0);
  EXPECT_EQ(again.json()["photos"]["known"], 3);
  EXPECT_EQ(ledger_text(pond.path), before);
}

TEST(Intake, PhotosThatNoRowNamesAreNoticed) {
  const Pond pond(false);
  const auto first = intake(pond.path, first_sheet(), photos_folder());
  EXPECT_EQ(first.exit, 0);
  EXPECT_EQ(first.json()["on_no_row"], nlohmann::json({"A0000-1.jpg", "A0001-1.jpg", "tray.jpg"}));
  EXPECT_THAT(first.err,
              HasSubstr("3 photos in " + photos_folder() +
                        " are on no row of the sheet: 'A0000-1.jpg', "
                        "'A0001-1.jpg' and 'tray.jpg'; if they are of this night, add their rows"));
  // What an earlier night took in is no longer forgotten.
  const auto second = intake(pond.path, second_sheet(), photos_folder());
  EXPECT_EQ(second.json()["on_no_row"], nlohmann::json::array());
  EXPECT_THAT(second.err, testing::Not(HasSubstr("on no row")));
}

TEST(Intake, TheSamePhotoUnderAnotherNameIsNoticedByItsBytes) {
  const Pond pond(true);
  fs::create_directory(pond.folder.path / "card");
  const fs::path card = pond.folder.path / "card";
  fs::copy_file(photos_folder() + "/A0000-0.jpg", card / "copy of \xC3\xBC.jpg");
  fs::copy_file(photos_folder() + "/A0000-1.jpg", card / "a.jpg");
  fs::copy_file(photos_folder() + "/A0000-1.jpg", card / "b.jpg");

  // In the catalogue already, the same night: noticed, not added.
  const fs::path sheet = pond.folder.path / "sheet.csv";
  write(sheet, "photo,site,pond,night,licence\ncopy of \xC3\xBC.jpg,Alder Fen,north,2024-05-01,L-7\n");
  auto answered = intake(pond.path, sheet.string(), card.string());
  EXPECT_EQ(answered.exit, 0);
  EXPECT_EQ(answered.json()["photos"]["new"], 0);
  ASSERT_EQ(answered.json()["noticed"].size(), 1u);
  EXPECT_THAT(answered.json()["noticed"][0].get<std::string>(), HasSubstr("'A0000-0.jpg'"));

  // In the catalogue already, on another night: refused.
  write(sheet, "photo,site,pond,night,licence\ncopy of \xC3\xBC.jpg,Alder Fen,north,2024-05-02,L-7\n");
  answered = intake(pond.path, sheet.string(), card.string());
  EXPECT_EQ(answered.exit, 3);
  EXPECT_THAT(answered.err, HasSubstr("2024-05-01"));

  // Twice on one sheet: refused as two captures, taken once as photos of one.
  write(
      sheet,
      "photo,site,night,licence,capture\na.jpg,Alder Fen,2024-05-14,L-7,\nb.jpg,Alder Fen,2024-05-14,L-7,\n");
  answered = intake(pond.path, sheet.string(), card.string());
  EXPECT_EQ(answered.exit, 3);
  EXPECT_THAT(answered.err, HasSubstr("line 3, photo 'b.jpg'"));
  EXPECT_EQ(answered.json()["taken"], false);
  write(sheet,
        "photo,site,night,licence,capture\na.jpg,Alder Fen,2024-05-14,L-7,d1\nb.jpg,Alder "
        "Fen,2024-05-14,L-7,d1\n");
  answered = intake(pond.path, sheet.string(), card.string());
  EXPECT_EQ(answered.exit, 0);
  EXPECT_EQ(answered.json()["photos"]["new"], 1);
  EXPECT_EQ(answered.json()["noticed"].size(), 1u);
}

TEST(Intake, BadRowsStopEverythingUnlessTheRestIsAskedFor) {
  const Pond pond(false);
  const fs::path sheet = pond.folder.path / "sheet.csv";
  write(sheet,
        kHead +
            "A0000-0.jpg,Alder Fen,2024-05-14,L-7,c1,,fermale\nA0001-0.jpg,Alder Fen,2024-05-14,L-7,c2,,\n" +
            "gone.jpg,Alder Fen,2024-05-14,L-7,c3,,\n");
  auto answered = intake(pond.path, sheet.string(), photos_folder());
  EXPECT_EQ(answered.exit, 3);
  EXPECT_THAT(answered.err, HasSubstr("line 2, sex"));
  EXPECT_THAT(answered.err, HasSubstr("line 4, photo 'gone.jpg'"));
  EXPECT_EQ(entries(pond.path), 1u);
  EXPECT_TRUE(fs::is_empty(fs::path(pond.path) / "photos"));

  answered = intake(pond.path, sheet.string(), photos_folder(), {"--keep-going"});
  EXPECT_EQ(answered.exit, 3);
  EXPECT_EQ(answered.json()["taken"], true);
  EXPECT_EQ(answered.json()["captures"]["new"], 1);
  EXPECT_EQ(answered.json()["refused"].size(), 2u);
  Catalogue catalogue = Catalogue::open(pond.path, system_env());
  const auto night = catalogue.ledger().back().entry;
  ASSERT_EQ(night.kind, NightIntake::kKind);
  const auto taken = std::get<NightIntake>(body_of(night));
  ASSERT_EQ(taken.refused.size(), 2u);
  EXPECT_EQ(taken.refused_lines, (std::vector<std::int64_t>{2, 4}))
      << "the report says where, from the number";
  EXPECT_THAT(taken.refused[0], testing::StartsWith("sex: 'fermale' is not known"));
  EXPECT_THAT(taken.refused[1], testing::StartsWith("photo 'gone.jpg': there is no such file"));
}

TEST(Intake, AMendedSheetCorrectsAndLeavesWhatItDoesNotSay) {
  const Pond pond(true);
  const fs::path sheet = pond.folder.path / "mended.csv";
  write(sheet,
        "photo,site,pond,night,licence,capture,svl_mm\nA0000-0.jpg,Alder Fen,north,2024-05-01,L-7,c1,70.5\n");
  const auto answered = intake(pond.path, sheet.string(), photos_folder());
  EXPECT_EQ(answered.exit, 0);
  ASSERT_EQ(answered.json()["noticed"].size(), 1u);
  EXPECT_THAT(answered.json()["noticed"][0].get<std::string>(), HasSubstr("svl_mm is now 70.5"));
  Catalogue catalogue = Catalogue::open(pond.path, system_env());
  for (const CaptureState& capture : catalogue.identities().captures)
    if (capture.facts.name == "c1") {
      EXPECT_EQ(capture.facts.svl_mm, 70.5);
      EXPECT_EQ(capture.facts.sex, Sex::female);
      EXPECT_EQ(capture.facts.observer, "KM");
    }
}

TEST(Intake, ANightWithoutACatchIsAnOccasionAndALossALoss) {
  const Pond pond(true);  // c1, c2 and c3 on 2024-05-01
  const fs::path sheet = pond.folder.path / "more.csv";
  write(sheet,
        "photo,site,pond,night,licence,capture,released,notes\n"
        "none,Alder Fen,north,2024-05-07,L-7,,,three degrees\n"
        "A0000-1.jpg,Alder Fen,north,2024-05-14,L-7,d1,yes,\n"
        "A0001-1.jpg,Alder Fen,north,2024-05-14,L-7,d2,no,found dead in the trap\n");
  const auto answered = intake(pond.path, sheet.string(), photos_folder());
  ASSERT_EQ(answered.exit, 0) << answered.err;
  EXPECT_EQ(answered.json()["nothing_caught"],
            nlohmann::json::parse(R"([{"night":"2024-05-07","place":"Alder Fen, north","known":false}])"));
  EXPECT_EQ(answered.json()["captures"]["new"], 2);
  for (const auto& [capture, answer, other] : {std::tuple("c1", "new", ""),
                                               {"c2", "new", ""},
                                               {"c3", "new", ""},
                                               {"d1", "same", "c1"},
                                               {"d2", "same", "c2"}}) {
    std::vector<std::string> args{"verdict", pond.path, capture, answer, "--by", "KM"};
    if (*other != 0) args.insert(args.begin() + 4, other);
    ASSERT_EQ(try_out::evet(args).exit, 0) << capture;
  }
  const auto histories = try_out::evet({"histories", pond.path, "--json"}).json();
  EXPECT_EQ(histories["occasions"], nlohmann::json({"2024-05-01", "2024-05-07", "2024-05-14"}));
  EXPECT_EQ(histories["empty_nights"], nlohmann::json({"2024-05-07"}));
  std::map<std::string, int> animals;  // history, and whether it was lost
  for (const auto& animal : histories["animals"])
    ++animals[animal["history"].get<std::string>() + (animal.value("lost", false) ? " lost" : "")];
  EXPECT_EQ(animals, (std::map<std::string, int>{{"101", 1}, {"101 lost", 1}, {"100", 1}}));
  const auto csv = try_out::evet({"histories", pond.path}).out;
  EXPECT_THAT(csv, HasSubstr("2024-05-07"));
  EXPECT_THAT(csv, HasSubstr("lost"));
  EXPECT_THAT(try_out::evet({"individuals", pond.path}).out, HasSubstr("not released"));
  // The estimators take the empty night as an occasion: three samples of 3, 0 and 2.
  const auto estimate = try_out::evet({"estimate", pond.path, "--model", "schnabel", "--json"});
  EXPECT_EQ(estimate.exit, 0) << estimate.err;
  EXPECT_EQ(estimate.json()["occasions"], 3) << estimate.out;
}

TEST(Intake, ALossIsCorrectedByTheSheetAndKeptWhereTheSheetIsSilent) {
  const Pond pond(true);
  const fs::path sheet = pond.folder.path / "mended.csv";
  const auto lost = [&] {
    Catalogue catalogue = Catalogue::open(pond.path, system_env());
    for (const CaptureState& capture : catalogue.identities().captures)
      if (capture.facts.name == "c1") return capture.facts.lost;
    ADD_FAILURE();
    return false;
  };
  const auto say = [&](const std::string& column, const std::string& cell) {
    write(sheet, "photo,site,pond,night,licence,capture" + column +
                     "\nA0000-0.jpg,Alder Fen,north,2024-05-01,L-7,c1" + cell + "\n");
    EXPECT_EQ(intake(pond.path, sheet.string(), photos_folder()).exit, 0);
  };
  EXPECT_FALSE(lost());
  say(",released", ",no");
  EXPECT_TRUE(lost());
  say(",released", ",");
  EXPECT_TRUE(lost());
  say("", "");
  EXPECT_TRUE(lost());
  say(",released", ",yes");
  EXPECT_FALSE(lost());
}

TEST(Intake, ANightWithoutACatchIsTakenOnceAndCanBeTakenBack) {
  const Pond pond(true);
  const fs::path sheet = pond.folder.path / "empty.csv";
  const auto nights = [&] {
    return try_out::evet({"histories", pond.path, "--json"}).json()["occasions"].size();
  };
  ASSERT_EQ(try_out::evet({"verdict", pond.path, "c1", "new", "--by", "KM"}).exit, 0);
  write(sheet, "photo,site,pond,night,licence\nnone,Alder Fen,north,2024-05-07,L-7\n");
  const auto first = intake(pond.path, sheet.string(), photos_folder());
  ASSERT_EQ(first.exit, 0) << first.err;
  const std::string before = ledger_text(pond.path);
  const auto again = intake(pond.path, sheet.string(), photos_folder());
  EXPECT_EQ(again.exit, 0);
  EXPECT_EQ(again.json()["nothing_caught"][0]["known"], true);
  EXPECT_EQ(ledger_text(pond.path), before);
  EXPECT_EQ(nights(), 2u);

  const std::string entry = first.json()["entry"];
  EXPECT_EQ(try_out::evet({"verdict", pond.path, "--undo", entry, "--by", "KM"}).exit, 0);
  EXPECT_EQ(nights(), 1u);
  EXPECT_EQ(intake(pond.path, sheet.string(), photos_folder()).json()["nothing_caught"][0]["known"], false);
  EXPECT_EQ(nights(), 2u);
}

TEST(Intake, NothingCaughtWhereTheCatalogueHoldsACatchIsRefused) {
  const Pond pond(true);
  const fs::path sheet = pond.folder.path / "empty.csv";
  write(sheet, "photo,site,pond,night,licence,trap\nnone,Alder Fen,north,2024-05-01,L-7,\n");
  const auto answered = intake(pond.path, sheet.string(), photos_folder());
  EXPECT_EQ(answered.exit, 3);
  EXPECT_THAT(answered.err,
              HasSubstr("line 2, photo: says that nothing was caught on 2024-05-01 at Alder Fen, "
                        "north, but the catalogue holds 3 captures of that night there"));
  write(sheet, "photo,site,pond,night,licence,trap\nnone,Alder Fen,north,2024-05-01,L-7,T9\n");
  EXPECT_EQ(intake(pond.path, sheet.string(), photos_folder()).exit,
            0);  // another trap of a night with a catch
}

TEST(Intake, TheLedgerIsTheSameToTheByteWithOneThreadAndWithTwo) {
  std::vector<std::string> ledgers, answers;
  for (const char* threads : {"1", "2"}) {
    const Folder folder;
    const std::string pond = (folder.path / "pond").string();
    SteadyEnv env;
    ASSERT_EQ(try_out::evet({"new", pond, "--by", "KM", "--title", "P"}, env).exit, 0);
    const auto first = intake(pond, first_sheet(), photos_folder(), {"--threads", threads}, env);
    const auto second = intake(pond, second_sheet(), photos_folder(), {"--threads", threads}, env);
    answers.push_back(first.out + first.err + second.out + second.err);
    answers.back() += try_out::evet({"rank", pond, "--threads", threads, "--accept", "--json"}, env).out;
    ledgers.push_back(ledger_text(pond));
  }
  EXPECT_EQ(answers[0], answers[1]);
  EXPECT_EQ(ledgers[0], ledgers[1]);
}

TEST(Intake, AKilledIntakeCarriesOn) {
  const Pond pond(false);
  const fs::path sheet = pond.folder.path / "sheet.csv";
  // More photos than one transaction holds, so that the kill falls between two: one picture, made
  // another file by bytes after the picture's end.
  std::string rows = kHead;
  fs::create_directory(pond.folder.path / "card");
  for (int i = 0; i < 20; ++i) {
    const std::string name = "p" + std::to_string(i) + ".jpg";
    write(pond.folder.path / "card" / name,
          read(fs::path(photos_folder()) / "tray.jpg") + std::string(static_cast<size_t>(i + 1), 'x'));
    rows += name + ",Alder Fen,2024-05-14,L-7,c" + std::to_string(i) + ",,\n";
  }
  write(sheet, rows);
  const std::string card = (pond.folder.path / "card").string();

  const pid_t child = ::fork();
  if (child == 0) {
    SteadyEnv env;
    env.writes_until_failure = 18;  // photos
    env.failing = [] { ::_exit(9); };
    intake(pond.path, sheet.string(), card, {"--threads", "1"}, env);
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  ASSERT_EQ(WEXITSTATUS(status), 9);
  {
    Catalogue catalogue = Catalogue::open(pond.path, system_env());
    EXPECT_EQ(catalogue.identities().captures.size(), 16u);  // what was acknowledged is there
  }
  const auto again = intake(pond.path, sheet.string(), card);
  EXPECT_EQ(again.exit, 0) << again.err;
  EXPECT_EQ(again.json()["captures"]["new"], 4);
  EXPECT_EQ(again.json()["captures"]["known"], 16);
  Catalogue catalogue = Catalogue::open(pond.path, system_env());
  std::multiset<std::string> names;
  for (const CaptureState& capture : catalogue.identities().captures) {
    names.insert(capture.facts.name);
    EXPECT_EQ(capture.photos.size(), 1u);
  }
  EXPECT_EQ(names.size(), 20u);
  EXPECT_EQ(std::set<std::string>(names.begin(), names.end()).size(), 20u);
}

TEST(Intake, AFullDiskIsSaidAndTheSameCommandCarriesOn) {
  const Pond pond(false);
  SteadyEnv env;
  env.writes_until_failure = 1;
  auto answered = intake(pond.path, first_sheet(), photos_folder(), {"--threads", "1"}, env);
  EXPECT_EQ(answered.exit, 4);
  EXPECT_THAT(answered.err, HasSubstr("free some space"));
  EXPECT_EQ(answered.json()["error"]["kind"], "storage");
  answered = intake(pond.path, first_sheet(), photos_folder());
  EXPECT_EQ(answered.exit, 0);
  EXPECT_EQ(answered.json()["captures"]["new"], 3);
}

// A small file system of its own, where such a thing may be made.
struct OwnDisk {
  fs::path path;
  bool mounted = false;
  OwnDisk(const fs::path& at, const char* size) : path(at) {
    fs::create_directory(path);
    mounted = ::mount("tmpfs", path.c_str(), "tmpfs", 0, size) == 0;
  }
  ~OwnDisk() {
    if (mounted) ::umount(path.c_str());
  }
  OwnDisk(const OwnDisk&) = delete;
  OwnDisk& operator=(const OwnDisk&) = delete;
};

// With room for one more photo.
TEST(Intake, ADiskThatIsReallyFullLosesNothing) {
  const Folder folder;
  const OwnDisk own(folder.path / "disk", "size=8m");
  if (!own.mounted) GTEST_SKIP() << "no right to mount";
  const fs::path& disk = own.path;
  const std::string pond = (disk / "pond").string();
  ASSERT_EQ(try_out::evet({"new", pond, "--by", "KM"}).exit, 0);
  write(disk / "ballast", std::string(fs::space(disk).available - 120'000, 'x'));
  const auto full = intake(pond, first_sheet(), photos_folder());
  EXPECT_EQ(full.exit, 4);
  EXPECT_NE(full.err, "");
  EXPECT_EQ(try_out::evet({"individuals", pond}).exit, 0);  // it opens, with what was acknowledged
  fs::remove(disk / "ballast");
  const auto carried_on = intake(pond, first_sheet(), photos_folder());
  EXPECT_EQ(carried_on.exit, 0) << carried_on.err;
  EXPECT_EQ(
      carried_on.json()["captures"]["new"].get<int>() + carried_on.json()["captures"]["known"].get<int>(), 3);
}

TEST(Intake, AReadOnlyDiskIsReadAndAWriteNamesWhatWasAsked) {
  const Folder folder;
  const OwnDisk own(folder.path / "disk", "size=16m");
  if (!own.mounted) GTEST_SKIP() << "no right to mount";
  const fs::path& disk = own.path;
  const std::string pond = (disk / "pond").string();
  ASSERT_EQ(try_out::evet({"new", pond, "--by", "KM"}).exit, 0);
  ASSERT_EQ(intake(pond, first_sheet(), photos_folder()).exit, 0);
  fs::remove_all(disk / "pond" / "cache");  // as when the strips were never made on this machine
  ASSERT_EQ(::mount("tmpfs", disk.c_str(), "tmpfs", MS_REMOUNT | MS_RDONLY, ""), 0);

  const auto rank = try_out::evet({"rank", pond, "--json"});
  EXPECT_EQ(rank.exit, 0) << rank.err;
  EXPECT_EQ(rank.json()["captures"].size(), 3u);
  EXPECT_EQ(rank.err.find("cache: "), std::string::npos) << "nothing was there to be kept up\n" << rank.err;
  const auto again = intake(pond, second_sheet(), photos_folder());
  EXPECT_EQ(again.exit, 4);
  EXPECT_THAT(again.err, HasSubstr(pond));
  EXPECT_THAT(again.err, testing::Not(HasSubstr(".part-")));
  const std::string page = (disk / "night.html").string();
  const auto report = try_out::evet({"report", pond, "--out", page});
  EXPECT_EQ(report.exit, 4);
  EXPECT_THAT(report.err, HasSubstr(page + ": the folder " + disk.string() +
                                    " may not be written to; use a folder that you may write to"));
  EXPECT_EQ(try_out::evet({"new", (disk / "other").string(), "--by", "KM"}).exit, 4);
}

TEST(Intake, NamesWithBlanksAndUmlautsAreTakenAsTheyAre) {
  const Pond pond(false);
  const fs::path card = pond.folder.path / "meine Fotos";
  fs::create_directory(card);
  const std::string name = "M\xC3\xBChle 1, \xC3\xA4lter.jpg";
  fs::copy_file(photos_folder() + "/A0000-0.jpg", card / name);
  fs::copy_file(photos_folder() + "/tray.jpg", card / "two\nlines.jpg");
  write(pond.folder.path / "Nacht 1.csv", "\xEF\xBB\xBFphoto;site;night;licence;svl_mm\r\n\"" + name +
                                              "\";M\xC3\xBChlteich;2024-05-14;L-7;71,5\r\n" +
                                              "\"two\nlines.jpg\";M\xC3\xBChlteich;2024-05-15;L-7;\r\n");
  const auto answered = intake(pond.path, (pond.folder.path / "Nacht 1.csv").string(), card.string());
  EXPECT_EQ(answered.exit, 0) << answered.err;
  Catalogue catalogue = Catalogue::open(pond.path, system_env());
  const CaptureState& capture = catalogue.identities().captures.at(0);
  EXPECT_EQ(capture.facts.site, "M\xC3\xBChlteich");
  EXPECT_EQ(capture.facts.svl_mm, 71.5);
  EXPECT_EQ(capture.photos.at(0).name, name);
  EXPECT_EQ(catalogue.identities().captures.at(1).photos.at(0).name, "two\nlines.jpg");
  EXPECT_EQ(try_out::evet({"rank", pond.path}).exit, 0);
}

TEST(Intake, TenThousandRowsWithoutPhotosAreAllNamedInGoodTime) {
  const Pond pond(false);
  std::string rows = "photo,site,night,licence\n";
  for (int i = 0; i < 10'000; ++i) rows += "IMG_" + std::to_string(i) + ".jpg,Alder Fen,2024-05-14,L-7\n";
  write(pond.folder.path / "sheet.csv", rows);
  fs::create_directory(pond.folder.path / "card");
  const auto answered =
      intake(pond.path, (pond.folder.path / "sheet.csv").string(), (pond.folder.path / "card").string());
  EXPECT_EQ(answered.exit, 3);
  EXPECT_EQ(answered.json()["refused"].size(), 10'000u);
}

}  // namespace
}  // namespace evet
