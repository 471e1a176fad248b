// From ranking to identities: rank, verdict, individuals, histories, estimate, report.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "tests/tools/evet/try_evet.h"

namespace evet {
namespace {

using namespace try_out;
using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

// Both nights in; the first one settled by the program.
struct TwoNights : Pond {
  TwoNights() : Pond(true) {
    try_out::evet({"rank", path, "--accept"});
    try_out::evet({"intake", path, second_sheet(), photos_folder(), "--by", "KM"});
  }
};

const json& capture_named(const json& ranking, const std::string& name) {
  for (const json& capture : ranking["captures"])
    if (capture["capture"] == name) return capture;
  throw std::runtime_error("no capture " + name);
}

TEST(Rank, WritesExactlyTheDocumentThatIsPromised) {
  const TwoNights pond;
  const auto answered = try_out::evet({"rank", pond.path, "--json"});
  ASSERT_EQ(answered.exit, 0) << answered.err;
  const json document = answered.json();
  ASSERT_EQ(document.size(), 1u);
  ASSERT_EQ(document["captures"].size(), 3u);
  for (const json& capture : document["captures"]) {
    EXPECT_EQ(capture.size(), 6u);
    EXPECT_EQ(capture["night"], "2024-05-14");
    double sum = capture["new_probability"];
    double last = 1;
    for (const json& candidate : capture["candidates"]) {
      EXPECT_EQ(candidate.size(), 5u);
      EXPECT_TRUE(candidate["individual"].is_string() && candidate["score"].is_number() &&
                  candidate["best_photo"].is_string() && candidate["matched_spots"].is_number_integer());
      EXPECT_LE(candidate["probability"].get<double>(), last);
      last = candidate["probability"];
      sum += last;
    }
    EXPECT_NEAR(sum, 1, 1e-9);
    EXPECT_THAT((std::vector<std::string>{"same", "new", "look"}),
                testing::Contains(capture["advice"].get<std::string>()));
  }
  const json& back = capture_named(document, "d3");
  EXPECT_EQ(back["photos"][0]["photo"], "tray.jpg");
  EXPECT_EQ(back["photos"][0]["usable"], false);
  EXPECT_GE(back["photos"][0]["reasons"].size(), 1u);
  EXPECT_EQ(back["advice"], "look");
  // The likeliest individual of each recapture is the one that was caught before.
  EXPECT_EQ(capture_named(document, "d1")["candidates"][0]["best_photo"], "A0000-0.jpg");
  EXPECT_EQ(capture_named(document, "d2")["candidates"][0]["best_photo"], "A0001-0.jpg");
  EXPECT_EQ(try_out::evet({"rank", pond.path, "--json", "--threads", "2"}).out, answered.out);
}

TEST(Rank, OneNightAloneAndNothingRecordedUnlessAccepted) {
  const Pond pond(true);
  try_out::evet({"intake", pond.path, second_sheet(), photos_folder(), "--by", "KM"});
  const json first = try_out::evet({"rank", pond.path, "--night", "2024-05-01", "--json"}).json();
  ASSERT_EQ(first["captures"].size(), 3u);
  EXPECT_EQ(first["captures"][0]["candidates"].size(), 0u);
  EXPECT_EQ(first["captures"][0]["new_probability"], 1.0);
  EXPECT_EQ(try_out::evet({"individuals", pond.path, "--json"}).json()["individuals"].size(), 0u);
  const auto accepted = try_out::evet({"rank", pond.path, "--accept"});
  EXPECT_THAT(accepted.out, HasSubstr("Accepted into the ledger"));
  const json who = try_out::evet({"individuals", pond.path, "--json"}).json();
  EXPECT_GE(who["individuals"].size(), 3u);
  EXPECT_EQ(who["individuals"][0]["captures"][0]["by_program"], true);
}

size_t entries_in(const Pond& pond) {
  return Catalogue::open(pond.path, system_env()).ledger().size();
}

// A word of a person stands before a probability over 99 %.
TEST(Rank, WhomAPersonSaidIsDifferentIsNoCandidate) {
  const TwoNights pond;
  const json before = capture_named(try_out::evet({"rank", pond.path, "--json"}).json(), "d1");
  ASSERT_EQ(before["advice"], "same");
  ASSERT_FALSE(before.contains("ruled_out"));
  const std::string individual = before["candidates"][0]["individual"];
  try_out::evet({"verdict", pond.path, "d1", "different", "c1", "--by", "KM"});

  const json after = capture_named(try_out::evet({"rank", pond.path, "--json"}).json(), "d1");
  EXPECT_NE(after["advice"], "same");
  double sum = after["new_probability"];
  for (const json& candidate : after["candidates"]) {
    EXPECT_NE(candidate["individual"], individual);
    sum += candidate["probability"].get<double>();
  }
  EXPECT_NEAR(sum, 1, 1e-9);
  ASSERT_EQ(after["ruled_out"].size(), 1u);
  EXPECT_EQ(after["ruled_out"][0]["individual"], individual);
  EXPECT_EQ(after["ruled_out"][0]["capture"], "c1");
  EXPECT_EQ(after["ruled_out"][0]["by"], "KM");
  const std::string words = "not " + individual + ": said to be different by KM on " +
                            after["ruled_out"][0]["on"].get<std::string>();
  EXPECT_THAT(try_out::evet({"rank", pond.path}).out, HasSubstr("d1: " + words));
}

TEST(Rank, AcceptingTwiceAddsNothingTheSecondTime) {
  const TwoNights pond;
  try_out::evet({"verdict", pond.path, "d1", "different", "c1", "--by", "KM"});
  try_out::evet({"verdict", pond.path, "d2", "cannot-tell", "c2", "--by", "KM"});
  const auto first = try_out::evet({"rank", pond.path, "--accept"});
  ASSERT_EQ(first.exit, 0) << first.err;
  EXPECT_THAT(first.out, HasSubstr("could not be told from"));
  const size_t entries = entries_in(pond);
  const auto second = try_out::evet({"rank", pond.path, "--accept"});
  EXPECT_THAT(second.out, HasSubstr("0 same, 0 new"));
  EXPECT_EQ(entries_in(pond), entries);
}

TEST(Rank, ThePriorOfACaptureWithoutAPhotoLeavesOutWhomAPersonRuledOut) {
  const TwoNights pond;
  try_out::evet({"verdict", pond.path, "d3", "different", "c1", "--by", "KM"});
  const json capture = capture_named(try_out::evet({"rank", pond.path, "--json"}).json(), "d3");
  ASSERT_EQ(capture["candidates"].size(), 2u);
  double sum = capture["new_probability"];
  for (const json& candidate : capture["candidates"]) sum += candidate["probability"].get<double>();
  EXPECT_NEAR(sum, 1, 1e-12);
  EXPECT_NEAR(capture["new_probability"], 0.5 / (0.5 + 2 * 0.5 / 3), 1e-12);
}

TEST(Verdict, APersonSettlesTakesBackAndOverrides) {
  const TwoNights pond;
  auto said = try_out::evet(
      {"verdict", pond.path, "d1", "same", "c1", "--by", "KM", "--reason", "fork on the throat", "--json"});
  ASSERT_EQ(said.exit, 0) << said.err;
  const std::string individual = said.json()["individual"];
  EXPECT_EQ(said.json()["disputed"], false);
  json one = try_out::evet({"individuals", pond.path, individual, "--json"}).json();
  EXPECT_EQ(one["captures"].size(), 2u);

  const auto undone =
      try_out::evet({"verdict", pond.path, "--undo", said.json()["entry"], "--by", "KM", "--json"});
  ASSERT_EQ(undone.exit, 0) << undone.err;
  EXPECT_EQ(try_out::evet({"individuals", pond.path, individual, "--json"}).json()["captures"].size(), 1u);
  EXPECT_EQ(try_out::evet({"verdict", pond.path, "--undo", undone.json()["entry"], "--by", "KM"}).exit, 0);
  EXPECT_EQ(try_out::evet({"individuals", pond.path, individual, "--json"}).json()["captures"].size(), 2u);

  said = try_out::evet({"verdict", pond.path, "A0001-1.jpg", "new", "--label", "N-31", "--by", "KM"});
  EXPECT_THAT(said.out, HasSubstr("'N-31'"));
  EXPECT_EQ(try_out::evet({"individuals", pond.path, "N-31", "--json"}).json()["captures"].size(), 1u);
  // Another reader contradicts: a dispute, and nothing wins in silence.
  said = try_out::evet({"verdict", pond.path, "d1", "different", "c1", "--by", "TR", "--json"});
  EXPECT_EQ(said.json()["disputed"], true);
  EXPECT_THAT(try_out::evet({"individuals", pond.path}).out, HasSubstr("1 dispute"));
}

TEST(Verdict, ACaptureIsNotComparedWithItself) {
  const Pond pond(true);
  EXPECT_EQ(try_out::evet({"verdict", pond.path, "c1", "same", "c1", "--by", "KM"}).exit, 3);
  const auto nobody = try_out::evet({"verdict", pond.path, "c1", "same", "c9", "--by", "KM"});
  EXPECT_EQ(nobody.exit, 3);
  EXPECT_THAT(nobody.err, HasSubstr("'c9'"));
}

TEST(Individuals, AsTheyStoodBefore) {
  const TwoNights pond;
  EXPECT_EQ(try_out::evet({"individuals", pond.path, "--json", "--as-of", "2024-01-01"})
                .json()["individuals"]
                .size(),
            0u);
  const auto wrong = try_out::evet({"individuals", pond.path, "--as-of", "yesterday"});
  EXPECT_EQ(wrong.exit, 3);
}

TEST(Histories, AreCsvThatTheEstimateReadsBack) {
  const TwoNights pond;
  for (const char* pair : {"d1 c1", "d2 c2"})
    try_out::evet(
        {"verdict", pond.path, std::string(pair, 2), "same", std::string(pair + 3, 2), "--by", "KM"});
  const auto csv = try_out::evet({"histories", pond.path, "--site", "Alder Fen"});
  ASSERT_EQ(csv.exit, 0) << csv.err;
  EXPECT_THAT(csv.out, HasSubstr("2024-05-01,2024-05-14"));
  EXPECT_THAT(csv.err, HasSubstr("1 capture is left out because no photo of it can be matched"));
  const std::string file = (pond.folder.path / "histories.csv").string();
  EXPECT_EQ(try_out::evet({"histories", pond.path, "--out", file}).exit, 0);
  EXPECT_EQ(read(file), try_out::evet({"histories", pond.path}).out);

  // Chapman (1951): (n1 + 1)(n2 + 1)/(m + 1) - 1 with n1 = 3, n2 = 2, m = 2.
  for (const std::vector<std::string>& from :
       {std::vector<std::string>{pond.path}, std::vector<std::string>{"--csv", file}}) {
    std::vector<std::string> args{"estimate"};
    args.insert(args.end(), from.begin(), from.end());
    args.insert(args.end(), {"--design", "closed", "--model", "chapman", "--json"});
    const auto estimate = try_out::evet(args);
    ASSERT_EQ(estimate.exit, 0) << estimate.err;
    EXPECT_NEAR(estimate.json()["answer"][0]["value"].get<double>(), 4.0 * 3.0 / 3.0 - 1, 1e-9);
  }
  // Options that take a list do not eat the catalogue that follows them.
  EXPECT_EQ(try_out::evet({"estimate", "--design", "closed", "--stage", "adult,juvenile", "--model",
                           "chapman,lincoln-petersen", pond.path})
                .exit,
            0);
  const auto words = try_out::evet({"estimate", pond.path, "--design", "closed", "--model", "chapman"});
  EXPECT_THAT(words.out, HasSubstr("3 animals"));
  EXPECT_THAT(words.out, HasSubstr("left out because no photo of it can be matched"));
  EXPECT_THAT(words.out, Not(HasSubstr("rank --accept"))) << "it would not settle it";
  const auto wrong = try_out::evet({"estimate", "--csv", file, "--design", "closed", "--model", "nonsense"});
  EXPECT_EQ(wrong.exit, 2) << "a slip on the command line";
  EXPECT_THAT(wrong.err, HasSubstr("chapman"));
}

TEST(Report, TellsOfEveryCaptureAndNamesNoPlace) {
  const TwoNights pond;
  try_out::evet({"verdict", pond.path, "d1", "same", "c1", "--by", "KM", "--reason", "fork on the throat"});
  const std::string file = (pond.folder.path / "night.html").string();
  const auto answered = try_out::evet({"report", pond.path, "--out", file, "--json"});
  ASSERT_EQ(answered.exit, 0) << answered.err;
  const json said = answered.json();
  EXPECT_EQ(said["night"], "2024-05-14");
  EXPECT_EQ(said["captures"], 3);
  EXPECT_EQ(said["recaptures"], 1);
  EXPECT_EQ(said["unusable"], 1);
  EXPECT_EQ(said["to_look_at"], 1);
  const std::string page = read(file);
  EXPECT_THAT(page, HasSubstr("fork on the throat"));
  EXPECT_THAT(page, HasSubstr("tray.jpg"));
  EXPECT_THAT(page, Not(HasSubstr("src=\"http")));
  // The first night, once it is asked for; and a night that is not there.
  EXPECT_EQ(
      try_out::evet({"report", pond.path, "--night", "2024-05-01", "--out", file, "--json"}).json()["new"],
      3);
  EXPECT_EQ(try_out::evet({"report", pond.path, "--night", "2024-05-02", "--out", file}).exit, 3);
  EXPECT_EQ(try_out::evet({"report", pond.path, "--out", "/nowhere/at/all.html"}).exit, 3);
}

TEST(Inspect, DrawsTheStagesAndSaysWhatIsWrong) {
  const Folder folder;
  const std::string out = (folder.path / "stages").string();
  const auto good = try_out::evet({"inspect", photos_folder() + "/A0000-0.jpg", "--out", out, "--json"});
  ASSERT_EQ(good.exit, 0) << good.err;
  EXPECT_EQ(good.json()["usable"], true);
  const auto bad = try_out::evet({"inspect", photos_folder() + "/tray.jpg", "--out", out});
  EXPECT_EQ(bad.exit, 0);
  EXPECT_THAT(bad.out, HasSubstr("cannot be matched"));
  // A user's own midline overrides what is found.
  const auto drawn = try_out::evet({"inspect", photos_folder() + "/A0000-0.jpg", "--out", out, "--json",
                                    "--midline", "320,120", "320,240", "320,360"});
  EXPECT_EQ(drawn.exit, 0) << drawn.err;
}

TEST(Inspect, KeepsAMidlineThatAPersonDrew) {
  const Pond pond(true);
  const std::string out = (pond.folder.path / "stages").string();
  const std::vector<std::string> drawn{"--midline", "300,100", "320,240", "330,380"};
  std::vector<std::string> args{
      "inspect", photos_folder() + "/A0000-0.jpg", "--out", out, "--into", pond.path, "--by", "KM", "--json"};
  args.insert(args.end(), drawn.begin(), drawn.end());
  const auto kept = try_out::evet(args);
  ASSERT_EQ(kept.exit, 0) << kept.err;
  Catalogue catalogue = Catalogue::open(pond.path, system_env());
  const Identities who = catalogue.identities();
  for (const CaptureState& capture : who.captures) {
    if (capture.facts.name != "c1") continue;
    EXPECT_EQ(catalogue.photo(capture.photos.at(0).photo, capture.id).examination.midline.size(), 3u);
  }
  EXPECT_EQ(catalogue.ledger().back().entry.id.value, kept.json()["entry"]);

  args[1] = photos_folder() + "/tray.jpg";  // not in the catalogue
  EXPECT_EQ(try_out::evet(args).exit, 3);
  EXPECT_EQ(try_out::evet({"inspect", args[1], "--out", out, "--into", pond.path}).exit, 2);
}

TEST(AuditCommand, ListsWhatWasRecordedInSpiteOfWhatSpokeAgainstIt) {
  const Pond pond(true);
  const auto say = [&](const std::vector<std::string>& words) {
    std::vector<std::string> args{"verdict", pond.path};
    args.insert(args.end(), words.begin(), words.end());
    args.insert(args.end(), {"--by", "KM"});
    return try_out::evet(args);
  };
  ASSERT_EQ(say({"c1", "new"}).exit, 0);
  const auto refused = say({"c2", "same", "c1"});
  EXPECT_EQ(refused.exit, 3);
  EXPECT_THAT(refused.err, HasSubstr("was in hand on 2024-05-01 already"));
  EXPECT_EQ(try_out::evet({"audit", pond.path, "--json"}).json().at("in_spite_of").size(), 0u);
  const auto said = say({"c2", "same", "c1", "--in-spite", "netted again after release", "--json"});
  ASSERT_EQ(said.exit, 0) << said.err;
  const auto list = try_out::evet({"audit", pond.path, "--json"}).json().at("in_spite_of");
  ASSERT_GE(list.size(), 1u);
  EXPECT_EQ(list[0].at("code"), "same_night");
  EXPECT_EQ(list[0].at("reason"), "netted again after release");
  EXPECT_EQ(list[0].at("entry"), said.json().at("entry"));
  EXPECT_EQ(list[0].at("stands"), true);
  EXPECT_THAT(try_out::evet({"audit", pond.path}).out, HasSubstr("Reason: netted again after release"));
  try_out::evet({"verdict", pond.path, "--undo", said.json().at("entry").get<std::string>(), "--by", "KM"});
  EXPECT_THAT(try_out::evet({"audit", pond.path}).out, HasSubstr("(no longer counts)"));
}

}  // namespace
}  // namespace evet
