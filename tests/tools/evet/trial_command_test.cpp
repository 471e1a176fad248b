#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <map>
#include <set>
#include <thread>

#include "matcher/catalogue/calibration.h"
#include "matcher/catalogue/photo_work.h"
#include "tests/tools/evet/try_evet.h"
#include "tests/tools/review/drawn_pond.h"

namespace evet {
namespace {

using testing::HasSubstr;
using try_out::Answered;

// Drawn bellies, each animal known from two evenings by a person's verdict.
struct Drawn {
  try_out::Folder folder;
  std::string path = (folder.path / "pond").string();
  explicit Drawn(int animals, bool labels = false) {
    try_out::draw_pond(
        path, {.animals = animals, .labels_on_sheet = labels, .again = 2, .fresh = 1, .unusable = 1});
  }
};

std::string head_of(const std::string& path) {
  return Catalogue::open(path, system_env()).head_hash();
}

TEST(TrialCommand, TellsItAllAndLeavesTheCatalogueAsItIs) {
  const Drawn pond(10);
  const std::string before = try_out::read(std::filesystem::path(pond.path) / "catalogue.sqlite");
  const std::string page = (pond.folder.path / "trial.html").string(),
                    plots = (pond.folder.path / "plots").string();
  const Answered answered = try_out::evet({"trial", pond.path, "--json", "--out", page, "--plots", plots});
  ASSERT_LE(answered.exit, 1) << answered.err;
  const nlohmann::json document = answered.json();
  EXPECT_EQ(document.at("truth").at("individuals"), 10);
  EXPECT_EQ(document.at("truth").at("caught_twice"), 10);
  EXPECT_EQ(document.at("truth").at("captures_unsettled"), 4);
  EXPECT_EQ(document.at("searches").at("mated"), 20);
  EXPECT_EQ(document.at("searches").at("non_mated"), 20);
  EXPECT_EQ(document.at("failure_to_acquire").at("count"), 1);
  EXPECT_EQ(document.at("failure_to_acquire").at("of"), 24);
  EXPECT_EQ(document.at("rank_k").size(), 10U);
  EXPECT_GT(document.at("rank_k")[0].at("value").get<double>(), 0.9);
  EXPECT_EQ(document.at("holds"), answered.exit == 0);
  EXPECT_NEAR(document.at("cllr").at("bits").get<double>(),
              document.at("cllr").at("discrimination").get<double>() +
                  document.at("cllr").at("calibration").get<double>(),
              1e-12);
  for (const char* by : {"site", "season", "observer", "sex", "quality", "years apart"})
    EXPECT_TRUE(document.at("groups").contains(by)) << by;
  EXPECT_EQ(document.at("groups").at("years apart")[0].at("value"), "1 year");
  std::set<std::string> files;
  for (const auto& file : document.at("plot_files")) {
    files.insert(std::filesystem::path(file.get<std::string>()).filename().string());
    EXPECT_THAT(try_out::read(file.get<std::string>()), HasSubstr("<svg"));
  }
  EXPECT_EQ(files, (std::set<std::string>{"rank-k.svg", "fnir-fpir.svg", "det.svg", "reliability.svg"}));
  const std::string html = try_out::read(page);
  EXPECT_THAT(html, HasSubstr("</html>"));
  EXPECT_THAT(html, HasSubstr("default-src 'none'"));
  EXPECT_THAT(html, testing::Not(HasSubstr("http://www.w3.org/1999")));
  EXPECT_THAT(html, testing::Not(HasSubstr("<script")));
  EXPECT_EQ(try_out::read(std::filesystem::path(pond.path) / "catalogue.sqlite"), before);
}

TEST(TrialCommand, GivesTheSameAtAnyNumberOfThreads) {
  const Drawn pond(6);
  EXPECT_EQ(try_out::evet({"trial", pond.path, "--json", "--threads", "1"}).out,
            try_out::evet({"trial", pond.path, "--json", "--threads", "3"}).out);
}

TEST(TrialCommand, TakesIdentitiesKnownOnTheSheet) {
  const Drawn pond(4, true);
  const Answered answered = try_out::evet({"trial", pond.path});
  ASSERT_LE(answered.exit, 1) << answered.err;
  // Four labelled ones, and two of the last night on which the drawing puts a label, too.
  EXPECT_THAT(answered.out, HasSubstr("6 individuals"));
  EXPECT_THAT(answered.out, HasSubstr("How large a claim these data can bear"));
  EXPECT_THAT(answered.out, HasSubstr("A wrong join is 10 times as bad as a missed one"));
}

// The evening's own captures were not in the catalogue that evening.
TEST(TrialCommand, ASearchDoesNotSeeItsOwnEvening) {
  const Drawn pond(4);
  {
    Catalogue catalogue = Catalogue::open(pond.path, system_env());
    const Identities who = catalogue.identities();
    // A second capture of the first animal on the evening of its first, photographed just alike.
    const CaptureState first = *who.capture(who.individuals[0].captures[0]);
    const CaptureId twin = catalogue.new_capture_id();
    CaptureFacts facts = first.facts;
    facts.name = "again";
    PhotoTaken taken = catalogue.photo(first.photos[0].photo, first.id);
    taken.capture = twin;
    // Another picture by its bytes (what follows a JPEG's end is of no picture), and the same to look at.
    const auto pattern = catalogue.cache().pattern(taken.photo, maker_of({}));
    ASSERT_TRUE(pattern);
    Bytes picture = catalogue.read_photo(taken.photo);
    picture.push_back(std::byte{'!'});
    taken.photo = catalogue.store_photo(picture);
    catalogue.cache().keep_pattern(taken.photo, maker_of({}), *pattern);
    catalogue.append(
        {ActorKind::person, "KM"},
        {Capture{twin, facts}, taken, Verdict{.capture = twin, .other = first.id, .answer = Answer::same}});
  }
  const nlohmann::json document = try_out::evet({"trial", pond.path, "--json"}).json();
  EXPECT_EQ(document.at("searches").at("non_mated"), 9);
  EXPECT_EQ(document.at("searches").at("mated"), 9);
  EXPECT_LT(document.at("cllr").at("same_pairs").get<int>(), 10);
}

// What it takes to be tried: identities that people or the sheet vouch for, of two animals at least.
TEST(TrialCommand, SaysWhatIsMissingWhereNothingOrOneAnimalIsConfirmed) {
  const try_out::Folder folder;
  const std::string path = (folder.path / "pond").string();
  const try_out::DrawnPond drawn =
      try_out::draw_pond(path, {.animals = 0, .again = 0, .fresh = 2, .unusable = 0});
  const auto expect_missing = [&](const char* words) {
    const Answered answered = try_out::evet({"trial", path});
    EXPECT_EQ(answered.exit, 3);
    EXPECT_THAT(answered.err, HasSubstr(words));
  };
  expect_missing("no identity that a person confirmed");
  EXPECT_EQ(try_out::evet({"rank", path, "--accept"}).exit, 0);
  expect_missing("no identity that a person confirmed");  // what the program placed is no truth
  EXPECT_EQ(try_out::evet({"verdict", path, drawn.fresh[0].value, "new", "--by", "KM"}).exit, 0);
  expect_missing("one individual");
}

TEST(TrialCommand, ARefitOnTooFewAnimalsIsRefusedWithTheReason) {
  const Drawn pond(6);
  const std::string head = head_of(pond.path);
  const Answered answered = try_out::evet({"trial", pond.path, "--refit", "--by", "KM"});
  EXPECT_EQ(answered.exit, 1);
  EXPECT_THAT(answered.out, HasSubstr("only 6 animals are confirmed on two evenings"));
  EXPECT_EQ(head_of(pond.path), head);
}

// Every belly twice, on two animals: the shipped model, which knows no such pond, is far too sure.
TEST(TrialCommand, APondOfLookAlikesBreaksTheAdvicesWordAndARefitHelps) {
  const try_out::Folder folder;
  const std::string path = (folder.path / "pond").string();
  try_out::draw_pond(path, {.animals = 22, .patterns = 11, .again = 0, .fresh = 0, .unusable = 0});
  const Answered answered = try_out::evet({"trial", path, "--refit", "--by", "KM", "--json"});
  EXPECT_EQ(answered.exit, 1) << answered.err;
  const nlohmann::json document = answered.json();
  EXPECT_EQ(document.at("holds"), false);
  EXPECT_FALSE(document.at("worth_a_look").empty());
  const nlohmann::json& refit = document.at("refit");
  ASSERT_EQ(refit.at("kept"), true) << refit;
  EXPECT_LT(refit.at("cllr_after").get<double>(), refit.at("cllr_before").get<double>());
  EXPECT_GT(refit.at("gain_interval")[0].get<double>(), 0);
  Catalogue catalogue = Catalogue::open(path, system_env());
  const CalibrationInForce found = calibration_in_force(catalogue);
  ASSERT_TRUE(found.calibration);
  EXPECT_EQ(found.calibration_by.entry.value, refit.at("entry"));
  EXPECT_EQ(found.calibration_by.actor.name, "KM");
  EXPECT_EQ(found.calibration->individuals, 22);
}

TEST(TrialCommand, ItsOwnCalibrationIsUsedByRankingAndCanBeForgotten) {
  const Drawn pond(5);
  const auto scores = [&] {
    std::vector<double> out;
    const nlohmann::json ranked = try_out::evet({"rank", pond.path, "--json"}).json();
    for (const auto& capture : ranked.at("captures"))
      for (const auto& candidate : capture.at("candidates")) out.push_back(candidate.at("score"));
    return out;
  };
  const std::vector<double> shipped = scores();
  Catalogue::open(pond.path, system_env())
      .append({ActorKind::person, "KM"},
              {entry_of(OwnCalibration{{0.5, 0}, matching_model_id(), 30, 60, 900, 0.1, 0.05})});
  EXPECT_NE(scores(), shipped);
  const Answered tried = try_out::evet({"trial", pond.path});
  EXPECT_THAT(tried.out, HasSubstr("The catalogue's own calibration is in use"));
  const Answered report = try_out::evet(
      {"report", pond.path, "--pond", "north", "--out", (pond.folder.path / "r.html").string()});
  EXPECT_EQ(report.exit, 0) << report.err;
  EXPECT_THAT(try_out::read(pond.folder.path / "r.html"), HasSubstr("learned from 30 individuals"));
  EXPECT_EQ(try_out::evet({"trial", pond.path, "--forget-refit", "--by", "KM"}).exit, 0);
  EXPECT_EQ(scores(), shipped);
  EXPECT_EQ(try_out::evet({"audit", pond.path}).exit, 0);
}

TEST(MergeCommand, SaysThatTwoCalibrationsMetAndWhichCounts) {
  const Drawn a(2), b(2);
  const auto calibrate = [](const Drawn& pond, double scale) {
    Catalogue::open(pond.path, system_env())
        .append({ActorKind::person, "KM"},
                {entry_of(OwnCalibration{{scale, 0}, matching_model_id(), 30, 60, 900, 0.1, 0.05})});
  };
  calibrate(a, 0.9);
  std::this_thread::sleep_for(std::chrono::milliseconds(2));  // entries of one millisecond have no order
  calibrate(b, 0.7);
  const auto merged = [&] { return try_out::evet({"merge", a.path, b.path, "--by", "KM", "--json"}).json(); };
  EXPECT_EQ(merged().at("two_calibrations_met"), true);
  EXPECT_EQ(merged().at("two_calibrations_met"), false) << "the later one counts in both";
  Catalogue catalogue = Catalogue::open(a.path, system_env());
  EXPECT_EQ(search_options_of(catalogue).calibration.scale, 0.7);
}

TEST(RankCommand, SaysInWhatOrderToLookAndWhatItCosts) {
  const Drawn pond(5);
  const nlohmann::json ranked =
      try_out::evet({"rank", pond.path, "--json", "--queue", "--costs", "a look costs nothing"}).json();
  EXPECT_EQ(ranked.at("costs").at("look"), 0);
  EXPECT_EQ(ranked.at("costs").at("wrong_join"), 10);
  const nlohmann::json& queue = ranked.at("queue");
  ASSERT_GE(queue.size(), 2U) << "at no cost everything is worth a look";
  for (size_t k = 0; k < queue.size(); ++k) {
    EXPECT_EQ(queue[k].at("advice"), "look");
    EXPECT_FALSE(queue[k].at("why").empty());
    if (k > 0) {
      EXPECT_LE(queue[k].at("gain"), queue[k - 1].at("gain"));
    }
  }
}

TEST(RankCommand, CostsThatAreKeptCountFromThenOn) {
  const Drawn pond(3);
  EXPECT_EQ(try_out::evet({"rank", pond.path, "--costs", "a wrong join is a hundred times worse, a look 1/50",
                           "--keep-costs", "--by", "KM"})
                .exit,
            0);
  const nlohmann::json costs = try_out::evet({"rank", pond.path, "--json", "--queue"}).json().at("costs");
  EXPECT_EQ(costs.at("wrong_join"), 100);
  EXPECT_EQ(costs.at("look"), 0.02);
  EXPECT_THAT(try_out::evet({"trial", pond.path}).out, HasSubstr("A wrong join is 100 times as bad"));
  EXPECT_EQ(try_out::evet({"audit", pond.path}).exit, 0);
}

// A new animal photographed under two labels: neither is known, and they must not be called two animals.
TEST(RankCommand, TwoCapturesOfOneNewAnimalSaySo) {
  const try_out::Folder folder;
  const std::string path = (folder.path / "pond").string();
  try_out::draw_pond(path, {.animals = 4, .again = 0, .fresh = 1, .unusable = 0, .fresh_twice = 1});
  const nlohmann::json ranked = try_out::evet({"rank", path, "--json", "--queue"}).json();
  for (const auto& capture : ranked.at("captures"))
    EXPECT_GT(capture.at("new_probability").get<double>(), 0.9) << capture;
  const nlohmann::json& queue = ranked.at("queue");
  ASSERT_EQ(queue.size(), 2U);
  EXPECT_EQ(queue[0].at("advice"), "look");
  EXPECT_EQ(queue[1].at("advice"), "new") << "one may be called new; the other waits for it";
  for (const auto& one : queue) {
    ASSERT_EQ(one.at("perhaps_one_with").size(), 1U) << one;
    EXPECT_GT(one.at("perhaps_one_with")[0].at("probability").get<double>(), 0.5);
    EXPECT_THAT(one.at("why").dump(), HasSubstr("may be one new animal with"));
  }
  const Answered accepted = try_out::evet({"rank", path, "--accept"});
  EXPECT_THAT(accepted.out, HasSubstr(" same, 1 new"));
}

}  // namespace
}  // namespace evet
