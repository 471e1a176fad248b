#include "tools/review/page.h"

#include <atomic>

#include "tests/tools/review/page_fixture.h"
#include "tools/numbers/numbers_in_doubt.h"

namespace evet::review {
namespace {

int sum_of(const nlohmann::json& glance) {
  return glance["caught_again"].get<int>() + glance["new"].get<int>() + glance["to_look"].get<int>() +
         glance["unusable"].get<int>();
}

TEST_F(APage, ShowsANightWhoseNumbersAddUpToTheSheet) {
  open();
  nlohmann::json night = ranked_night();
  EXPECT_EQ(night["glance"]["captures"], 7);
  EXPECT_EQ(night["glance"]["photos"], 7);
  EXPECT_EQ(night["glance"]["to_look"], 6);
  EXPECT_EQ(night["glance"]["unusable"], 1);
  EXPECT_EQ(sum_of(night["glance"]), 7);
  ASSERT_EQ(night["queue"].size(), 6u);
  for (const auto& one : night["queue"]) EXPECT_FALSE(one["why"].empty()) << one;
  // Whatever words it was written down with, by its measure.
  const std::string why = night["unusable"][0]["photos"][0]["notes"][0];
  EXPECT_TRUE(why.starts_with("no belly found: if there is a newt")) << why;

  say("/api/verdict",
      {{"capture", pond.again[0].value}, {"other", pond.captures[0][1].value}, {"answer", "same"}});
  say("/api/verdict", {{"capture", pond.fresh[0].value}, {"answer", "new"}});
  night = get("/api/night/2031-05-14");
  EXPECT_EQ(night["glance"]["caught_again"], 1);
  EXPECT_EQ(night["glance"]["new"], 1);
  EXPECT_EQ(night["glance"]["to_look"], 4);
  EXPECT_EQ(sum_of(night["glance"]), 7);
  EXPECT_EQ(night["settled"].size(), 2u);
  EXPECT_EQ(night["settled"][0]["by"], "KM");
}

TEST_F(APage, RanksTheCapturesAndLaysTheRightAnimalFirst) {
  open();
  ranked_night();
  for (std::size_t i = 0; i < pond.again.size(); ++i) {
    const nlohmann::json capture = get("/api/capture/" + pond.again[i].value);
    ASSERT_FALSE(capture["candidates"].empty());
    EXPECT_EQ(capture["candidates"][0]["individual_id"], pond.captures[i][0].value);
    double sum = capture["new_probability"];
    for (const auto& one : capture["candidates"]) sum += one["probability"].get<double>();
    EXPECT_LE(sum, 1 + 1e-9);
  }
}

TEST_F(APage, HoldsBackTheSheetUntilThePatternHasBeenJudged) {
  open();
  ranked_night();
  const std::string at = "/api/capture/" + pond.again[0].value;
  nlohmann::json capture = get(at);
  EXPECT_TRUE(capture["facts"].is_null());
  EXPECT_FALSE(capture["candidates"][0].contains("facts"));
  say("/api/verdict",
      {{"capture", pond.again[0].value}, {"other", pond.captures[0][1].value}, {"answer", "cannot_tell"}});
  EXPECT_EQ(get(at)["facts"]["sex"], "female");
  EXPECT_TRUE(get(at, "TR")["facts"].is_null()) << "another reader has not judged it";
  EXPECT_FALSE(get(at)["facts"].contains("latitude"));
}

TEST_F(APage, KeepsWhatWasShownWithTheVerdict) {
  open();
  const nlohmann::json night = ranked_night();
  say("/api/verdict", {{"capture", pond.again[1].value},
                       {"other", pond.captures[1][1].value},
                       {"answer", "same"},
                       {"reason", "three spots under the throat"},
                       {"generation", night["generation"]}});
  const auto entries =
      Catalogue::open(folder.path / "pond", system_env()).ledger({.kind = "verdict", .actor = "KM"});
  ASSERT_EQ(entries.size(), 1u);
  const auto verdict = std::get<Verdict>(body_of(entries[0].entry));
  EXPECT_EQ(verdict.reason, "three spots under the throat");
  ASSERT_FALSE(verdict.evidence.shown.empty());
  EXPECT_EQ(verdict.evidence.shown[0].individual.value, pond.captures[1][0].value);
  EXPECT_FALSE(verdict.blind);
}

TEST_F(APage, UndoesAndRedoesByNewEntriesOnly) {
  open();
  const nlohmann::json said = say("/api/verdict", {{"capture", pond.fresh[0].value}, {"answer", "new"}});
  nlohmann::json night = get("/api/night");
  EXPECT_EQ(night["undo"]["target"], said["entry"]);
  EXPECT_TRUE(night["redo"].is_null());
  const nlohmann::json undone = say("/api/take_back", {{"target", night["undo"]["target"]}});
  night = get("/api/night");
  EXPECT_EQ(night["glance"]["new"], 0);
  EXPECT_TRUE(night["undo"].is_null());
  EXPECT_EQ(night["redo"]["target"], undone["entry"]);
  say("/api/take_back", {{"target", night["redo"]["target"]}});
  night = get("/api/night");
  EXPECT_EQ(night["glance"]["new"], 1);
  EXPECT_EQ(night["undo"]["target"], said["entry"]);
  EXPECT_TRUE(night["redo"].is_null());
  reopen();
  EXPECT_EQ(get("/api/night")["undo"]["target"], said["entry"]) << "the steps come from the ledger";
  EXPECT_TRUE(get("/api/night", "TR")["undo"].is_null());
  EXPECT_EQ(try_say("/api/take_back", {{"target", said["entry"]}}, "TR").status, 409);
}

TEST_F(APage, NeverDoublesARetryNotEvenAfterARestart) {
  open();
  const nlohmann::json verdict = {{"capture", pond.again[0].value},
                                  {"other", pond.captures[0][1].value},
                                  {"answer", "same"},
                                  {"reason", "r"},
                                  {"after", get("/api/hello")["position"]}};
  const nlohmann::json first = say("/api/verdict", verdict);
  EXPECT_FALSE(first["again"].get<bool>());
  const nlohmann::json second = say("/api/verdict", verdict);
  EXPECT_TRUE(second["again"].get<bool>());
  EXPECT_EQ(second["entry"], first["entry"]);
  reopen();
  EXPECT_EQ(say("/api/verdict", verdict)["entry"], first["entry"]);
  // Another reader's same words are their own; and said anew after an undo they are new.
  EXPECT_NE(say("/api/verdict", verdict, "TR")["entry"], first["entry"]);
  const nlohmann::json undo = {{"target", first["entry"]}, {"after", get("/api/hello")["position"]}};
  const nlohmann::json undone = say("/api/take_back", undo);
  EXPECT_TRUE(say("/api/take_back", undo)["again"].get<bool>());
  EXPECT_NE(say("/api/verdict", verdict)["entry"], first["entry"]);
  const auto entries =
      Catalogue::open(folder.path / "pond", system_env()).ledger({.kind = "verdict", .actor = "KM"});
  EXPECT_EQ(entries.size(), 2u);
}

TEST_F(APage, AcceptsOnlyWhatTheProgramIsSureOfAndOnlyOnce) {
  open();
  const nlohmann::json night = ranked_night();
  nlohmann::json sure = nlohmann::json::array(), unsure;
  for (const auto& one : night["queue"]) {
    if (one["advice"] == "look")
      unsure = one["capture"];
    else
      sure.push_back(one["capture"]);
  }
  ASSERT_FALSE(sure.empty());
  const nlohmann::json body = {
      {"captures", sure}, {"generation", night["generation"]}, {"after", get("/api/hello")["position"]}};
  say("/api/accept", body);
  say("/api/accept", body);
  const nlohmann::json after = get("/api/night");
  EXPECT_EQ(after["settled"].size(), sure.size());
  for (const auto& one : after["settled"]) EXPECT_EQ(one["by"], "the program");
  const auto entries =
      Catalogue::open(folder.path / "pond", system_env()).ledger({.kind = "verdict", .actor = "evet review"});
  EXPECT_EQ(entries.size(), sure.size());
  if (!unsure.is_null()) {
    EXPECT_EQ(try_say("/api/accept", {{"captures", {unsure}}, {"generation", night["generation"]}}).status,
              409);
  }
  EXPECT_EQ(try_say("/api/accept", {{"captures", sure}, {"generation", 99}}).status, 409);
}

TEST_F(APage, IsBoundByWhatAPersonSaidIsDifferent) {
  open();
  const nlohmann::json night = ranked_night();
  nlohmann::json sure;
  for (const auto& one : night["queue"])
    if (one["advice"] == "same") sure = one["capture"];
  ASSERT_FALSE(sure.is_null());
  const std::string at = "/api/capture/" + sure.get<std::string>();
  const nlohmann::json best = get(at)["candidates"][0];
  say("/api/verdict", {{"capture", sure}, {"other", best["capture"]}, {"answer", "different"}});
  EXPECT_EQ(try_say("/api/accept", {{"captures", {sure}}, {"generation", night["generation"]}}, "TR").status,
            409)
      << "the ranking on the table is older than the verdict";

  const nlohmann::json after = ranked_night();
  for (const auto& one : after["queue"]) {
    if (one["capture"] != sure) continue;
    EXPECT_NE(one["advice"], "same");
    EXPECT_NE(one["why"].dump().find("not " + best["individual"].get<std::string>() +
                                     ": said to be different by KM on "),
              std::string::npos)
        << one["why"];
  }
  const nlohmann::json capture = get(at, "TR");
  double sum = capture["new_probability"];
  for (const auto& one : capture["candidates"]) {
    const bool ruled_out = one["individual_id"] == best["individual_id"];
    EXPECT_EQ(one["ruled_out"].size(), ruled_out ? 1u : 0u);
    EXPECT_EQ(one.contains("probability"), !ruled_out);
    if (!ruled_out) sum += one["probability"].get<double>();
  }
  EXPECT_NEAR(sum, 1, 1e-9);
  EXPECT_EQ(capture["candidates"].back()["ruled_out"][0]["by"], "KM");
  EXPECT_EQ(get(at)["candidates"].back()["mine"], "different");
}

TEST_F(APage, ServesPicturesAndTies) {
  open();
  ranked_night();
  const nlohmann::json capture = get("/api/capture/" + pond.again[0].value);
  const std::string mine = capture["photos"][0]["photo"], theirs = capture["candidates"][0]["photo"];
  for (const std::string& target :
       {"/strip/" + mine, "/strip/" + theirs + "?onto=" + mine, "/photo/" + mine}) {
    const Response picture = ask(target);
    EXPECT_EQ(picture.status, 200) << target;
    EXPECT_EQ(picture.type, "image/jpeg");
    EXPECT_EQ(picture.body.substr(0, 2), "\xff\xd8");
  }
  EXPECT_EQ(ask("/mask/" + theirs + "?onto=" + mine).body.substr(1, 3), "PNG");
  const nlohmann::json ties = get("/api/evidence/" + mine + "/" + theirs);
  EXPECT_GT(ties["matched"].size(), 8u);
  // Where a spot is laid is where its counterpart is, give or take a spot.
  for (const auto& tie : ties["matched"]) {
    EXPECT_NEAR(tie["capture"]["u"], tie["candidate"]["u_laid"], 0.06);
    EXPECT_NEAR(tie["capture"]["v"], tie["candidate"]["v_laid"], 0.25);
  }
  EXPECT_EQ(ask("/strip/" + std::string(64, 'a')).status, 404);
  EXPECT_EQ(ask("/strip/catalogue.sqlite").status, 422);
  EXPECT_EQ(ask("/strip/" + mine + "?onto=../../x").status, 422);
}

TEST_F(APage, SetsAPhotoAsideAndTakesItInAgain) {
  open();
  const std::string capture = pond.fresh[0].value;
  const std::string photo = get("/api/capture/" + capture)["photos"][0]["photo"];
  say("/api/usable", {{"capture", capture}, {"photo", photo}, {"usable", false}, {"reason", "a thumb"}});
  const nlohmann::json night = get("/api/night");
  EXPECT_EQ(night["glance"]["unusable"], 2);
  EXPECT_EQ(sum_of(night["glance"]), 7);
  EXPECT_EQ(get("/api/capture/" + capture)["photos"][0]["notes"][0], "set aside by KM: a thumb");
  say("/api/usable", {{"capture", capture}, {"photo", photo}, {"usable", true}});
  EXPECT_EQ(get("/api/night")["glance"]["unusable"], 1);
  const std::string none = pond.unusable[0].value;
  EXPECT_EQ(try_say("/api/usable", {{"capture", none},
                                    {"photo", get("/api/capture/" + none)["photos"][0]["photo"]},
                                    {"usable", true}})
                .status,
            409);
}

TEST_F(APage, DrawsAMidlineAndTakesItBack) {
  open();
  const std::string capture = pond.fresh[0].value;
  const std::string photo = get("/api/capture/" + capture)["photos"][0]["photo"];
  const std::string before = ask("/strip/" + photo).body;
  const nlohmann::json drawn = say("/api/midline", {{"capture", capture},
                                                    {"photo", photo},
                                                    {"points", {{90, 60}, {80, 256}, {70, 440}}},
                                                    {"reason", "a drawn photo"},
                                                    {"in_spite_of", {"midline_off_body"}}});
  EXPECT_TRUE(get("/api/capture/" + capture)["photos"][0]["midline_drawn"].get<bool>());
  const Response along = ask("/strip/" + photo);
  EXPECT_EQ(along.status, 200);
  EXPECT_TRUE(along.body != before) << "the strip follows at once";
  const nlohmann::json undo = get("/api/night")["undo"];
  EXPECT_EQ(undo["target"], drawn["entry"]);
  say("/api/take_back", {{"target", undo["target"]}});
  EXPECT_FALSE(get("/api/capture/" + capture)["photos"][0]["midline_drawn"].get<bool>());
  // The photo of a drawn pond has no belly of its own: what matters is that the drawn midline is gone.
  EXPECT_TRUE(ask("/strip/" + photo).body != along.body);
  for (const nlohmann::json& points : {nlohmann::json{{1, 2}}, nlohmann::json{{1, 2}, {"x", 3}},
                                       nlohmann::json("throat"), nlohmann::json{{1, 2}, {3, 4, 5}}})
    EXPECT_EQ(try_say("/api/midline", {{"capture", capture}, {"photo", photo}, {"points", points}}).status,
              422)
        << points;
}

TEST_F(APage, TellsHowManySecondReadingsThereWere) {
  open({.animals = 3, .again = 0, .fresh = 0, .unusable = 0});
  nlohmann::json found = get("/api/agreement");
  EXPECT_EQ(found["share"], 1);
  EXPECT_EQ(found["blind"], 0);
  say("/api/verdict",
      {{"capture", pond.captures[0][1].value},
       {"other", pond.captures[0][0].value},
       {"answer", "same"},
       {"blind", true}},
      "TR");
  found = get("/api/agreement");
  EXPECT_EQ(found["blind"], 1);
  EXPECT_EQ(found["planted"], 0);
  EXPECT_EQ(found["pairs"][0]["cases"], 1);
}

TEST_F(APage, ReadsASecondTimeBlindAndThePhotoFirst) {
  open({.animals = 3, .again = 0, .fresh = 0, .unusable = 0});
  nlohmann::json second = get("/api/second", "TR");
  EXPECT_EQ(second["left"], 3);
  const std::string capture = second["item"]["capture"];
  EXPECT_TRUE(second["item"]["candidate"].is_null()) << "the photo is judged first";
  // Nothing in it tells what anyone thinks.
  for (const char* word :
       {"probability", "score", "answer", "reason", "reader", "individual", "planted", "name"})
    EXPECT_EQ(second.dump().find(word), std::string::npos) << word;
  say("/api/reading", {{"capture", capture}, {"usable", true}}, "TR");
  second = get("/api/second", "TR");
  EXPECT_EQ(second["item"]["capture"], capture);
  ASSERT_FALSE(second["item"]["candidate"].is_null());
  say("/api/verdict",
      {{"capture", capture},
       {"other", second["item"]["candidate"]["capture"]},
       {"answer", "same"},
       {"blind", true}},
      "TR");
  EXPECT_EQ(get("/api/second", "TR")["left"], 2);
  EXPECT_EQ(get("/api/second", "OB1")["left"], 0) << "nobody reads their own pairs again";
  const std::string next = get("/api/second", "TR")["item"]["capture"];
  say("/api/reading", {{"capture", next}, {"usable", false}, {"reason", "blurred"}}, "TR");
  EXPECT_EQ(get("/api/second", "TR")["left"], 1);
  EXPECT_EQ(ask("/api/second", "").status, 422) << "a blind reading belongs to somebody";
}

TEST_F(APage, PlantsPairsOfKnownAnswerThatCountForNoIdentity) {
  open({.animals = 4, .labels_on_sheet = true, .again = 0, .fresh = 0, .unusable = 0});
  const nlohmann::json second = get("/api/second", "TR");
  ASSERT_GT(second["left"], 0);
  const std::string capture = second["item"]["capture"];
  say("/api/reading", {{"capture", capture}, {"usable", true}}, "TR");
  const std::string other = get("/api/second", "TR")["item"]["candidate"]["capture"];
  const auto individuals = get("/api/hello")["individuals"];
  for (const char* answer : {"same", "different"})
    say("/api/verdict", {{"capture", capture}, {"other", other}, {"answer", answer}, {"blind", true}}, "TR");
  EXPECT_EQ(get("/api/hello")["individuals"], individuals);
  EXPECT_EQ(get("/api/hello")["disputes"], 0);
  const auto entries =
      Catalogue::open(folder.path / "pond", system_env()).ledger({.kind = "verdict", .actor = "TR"});
  ASSERT_EQ(entries.size(), 2u);
  EXPECT_TRUE(std::get<Verdict>(body_of(entries[0].entry)).planted);
}

TEST_F(APage, SettlesADisputeByAThirdReaderOnly) {
  open({.animals = 2, .again = 0, .fresh = 0, .unusable = 0});
  const std::string a = pond.captures[0][1].value, b = pond.captures[0][0].value;  // OB1 says the same
  say("/api/verdict", {{"capture", a}, {"other", b}, {"answer", "different"}, {"reason", "the chin"}}, "TR");
  const nlohmann::json dispute = get("/api/disputes", "KM")["disputes"].at(0);
  EXPECT_EQ(dispute["readings"].size(), 2u);
  EXPECT_FALSE(dispute["took_part"].get<bool>());
  EXPECT_TRUE(get("/api/disputes", "TR")["disputes"][0]["took_part"].get<bool>());
  nlohmann::json decision = {{"capture", a},
                             {"other", b},
                             {"answer", "same"},
                             {"reason", "the same five dots"},
                             {"settles", dispute["against"]}};
  EXPECT_EQ(try_say("/api/adjudicate", decision, "TR").status, 409);
  EXPECT_EQ(try_say("/api/adjudicate", decision, "OB1").status, 409);
  nlohmann::json unreasoned = decision;
  unreasoned["reason"] = "";
  EXPECT_EQ(try_say("/api/adjudicate", unreasoned, "KM").status, 422);
  decision["after"] = get("/api/hello")["position"];
  const nlohmann::json settled = say("/api/adjudicate", decision, "KM");
  EXPECT_EQ(say("/api/adjudicate", decision, "KM")["entry"], settled["entry"]) << "a retry";
  EXPECT_EQ(get("/api/hello")["disputes"], 0);
  EXPECT_EQ(get("/api/individual/" + b)["captures"].size(), 2u);
  EXPECT_EQ(try_say("/api/adjudicate", decision, "LL").status, 409) << "settled already";
}

TEST_F(APage, AsksAboutOnePictureOfWhichTheSheetsDoNotAgree) {
  open({.animals = 2, .again = 0, .fresh = 0, .unusable = 0});
  EXPECT_TRUE(get("/api/disputes", "KM")["picture_questions"].empty());
  {
    Catalogue catalogue = Catalogue::open(folder.path / "pond", system_env());
    const CaptureState known = *catalogue.identities().capture(pond.captures[0][0]);
    const CaptureId twin = catalogue.new_capture_id();
    CaptureFacts facts = known.facts;
    facts.night = "2031-05-15";
    PhotoTaken taken = catalogue.photo(known.photos[0].photo, known.id);
    taken.capture = twin;
    catalogue.append({ActorKind::person, "OB1"}, {Capture{twin, facts}, taken});
  }
  const auto questions = get("/api/disputes", "KM")["picture_questions"];
  ASSERT_EQ(questions.size(), 1u);
  EXPECT_NE(questions[0].get<std::string>().find("as of 2031-05-15"), std::string::npos);
}

TEST_F(APage, SplitsAndJoinsIndividualsByVerdict) {
  open({.animals = 2, .again = 0, .fresh = 0, .unusable = 0});
  EXPECT_EQ(get("/api/individuals")["found"], 2);
  const std::string a = pond.captures[0][1].value, b = pond.captures[0][0].value;
  EXPECT_EQ(get("/api/individual/" + b)["captures"].size(), 2u);
  say("/api/verdict", {{"capture", a}, {"other", b}, {"answer", "different"}}, "OB1");
  EXPECT_EQ(get("/api/individual/" + b)["captures"].size(), 1u);
  say("/api/verdict", {{"capture", a}, {"other", b}, {"answer", "same"}}, "OB1");
  EXPECT_EQ(get("/api/individual/" + b)["captures"].size(), 2u);
  EXPECT_EQ(get("/api/individual/" + a)["id"], b) << "any capture leads to its individual";
  EXPECT_EQ(ask("/api/individual/" + std::string(36, '0')).status, 422);
}

TEST_F(APage, EstimatesWithTheDoubtAboutIdentitiesBesideTheCertainFigure) {
  open({.animals = 5, .captures_each = 2, .again = 5, .fresh = 2, .unusable = 0});
  const nlohmann::json night = ranked_night();
  std::vector<std::string> sure;
  for (const auto& one : night["queue"])
    if (one["advice"] != "look" && sure.size() < 3) sure.push_back(one["capture"]);
  ASSERT_EQ(sure.size(), 3u);
  say("/api/accept", {{"captures", sure}, {"generation", night["generation"]}});
  ranked_night();
  const nlohmann::json out = get("/api/estimates/doubt?from=2026-01-01");
  EXPECT_EQ(out["doubtful"], 7) << "three that the program settled, four that it has only ranked";
  ASSERT_FALSE(out["rows"].empty()) << out;
  EXPECT_EQ(ask("/api/estimates/doubt?site=Nowhere").status, 422);
  int numbers = 0;
  for (const auto& row : out["rows"]) {
    EXPECT_EQ(row["in_doubt"]["details"]["draws"], 20);
    numbers += row["in_doubt"]["of"]["quantity"] == "N" && row["in_doubt"]["value"].is_number() &&
               row["in_doubt"]["value"] > 0;
    EXPECT_TRUE(row["certain"]["value"].is_number() || row["certain"]["undefined"] != "")
        << "the night of the four stops the certain figure, which says so: " << row["certain"];
  }
  EXPECT_GT(numbers, 0);
  EXPECT_FALSE(out["differ"].get<std::string>().empty());
  EXPECT_EQ(get("/api/estimates/doubt?from=2026-01-01"), out) << "asked again, nothing having been said";
}

// What a correction changed stands in the ledger's list; where a pond lies, on the machine itself alone.
TEST_F(APage, TheLedgerSaysWhatACorrectionChanged) {
  open({.animals = 2, .again = 0, .fresh = 0, .unusable = 0});
  {
    Catalogue catalogue = Catalogue::open(folder.path / "pond", system_env());
    catalogue.append(
        {ActorKind::person, "KM"},
        {Correction{
            pond.captures[0][0], {{"latitude", 52.1}, {"longitude", -1.5}, {"sex", "male"}}, "slip"}});
  }
  Request asked = request("GET", "/api/ledger?kind=correction", "KM");
  asked.peer = "127.0.0.1";
  const auto here = nlohmann::json::parse(page->handle(asked).body)["entries"][0]["what"]["changes"];
  EXPECT_EQ(here["sex"], "male");
  EXPECT_EQ(here["latitude"], 52.1);
  asked.peer = "192.168.4.7";
  const auto elsewhere = nlohmann::json::parse(page->handle(asked).body)["entries"][0]["what"]["changes"];
  EXPECT_EQ(elsewhere, (nlohmann::json{{"sex", "male"}}));
}

TEST_F(APage, MovesANightThatWasTakenInUnderAWrongDate) {
  open({.animals = 3, .again = 2, .fresh = 0, .unusable = 0});
  const std::string capture = pond.again[0].value, night = pond.last_night;
  say("/api/verdict", {{"capture", capture}, {"other", pond.captures[0][0].value}, {"answer", "same"}}, "KM");
  const auto move = [&](const std::string& to, const std::string& reason) {
    return try_say("/api/night/move", {{"from", {{"site", "Alder Fen"}, {"pond", "north"}, {"night", night}}},
                                       {"to", {{"site", "Alder Fen"}, {"pond", "south"}, {"night", to}}},
                                       {"reason", reason}});
  };
  EXPECT_EQ(move("2031-02-30", "a slip").status, 422);
  EXPECT_EQ(move("2026-01-01", "").status, 422);
  EXPECT_EQ(get("/api/night/" + night)["glance"]["captures"], 2) << "nothing happened";
  const Response moved = move("1.5.2026", "taken in after midnight");
  EXPECT_EQ(moved.status, 422) << "1.5. may be two days";
  ASSERT_EQ(move("2026-05-14", "the year was wrong").status, 200);
  EXPECT_EQ(get("/api/night/" + night)["glance"]["captures"], 1) << "that of the other pond";
  const nlohmann::json there = get("/api/night/2026-05-14");
  EXPECT_EQ(there["glance"]["caught_again"], 1) << "with its verdict";
  EXPECT_EQ(there["places"][0], "Alder Fen, south");
  EXPECT_EQ(move("2026-05-14", "once more").status, 404);
}

// Identities of every open night are drawn, not of the first alone, as command and report do it; and a reader does
// not wait for it.
TEST_F(APage, DrawsIdentitiesOfEveryOpenNight) {
  open({.animals = 4, .again = 3, .fresh = 2, .unusable = 0, .fresh_later = 2});
  std::atomic<bool> done = false;
  int answered = 0;
  std::thread reader([&] {
    while (!done) answered += ask("/api/individuals").status == 200 ? 1 : 0;
  });
  const nlohmann::json out = get("/api/estimates/doubt");
  done = true;
  reader.join();
  EXPECT_EQ(out["doubtful"], 7) << "five of the first open night, two of the next";
  EXPECT_GT(answered, 0);
  Catalogue catalogue = Catalogue::open(folder.path / "pond", system_env(), {.access = Access::read});
  const std::vector<Doubt> doubts =
      doubts_of(catalogue, catalogue.statements(), catalogue.identities(), {}, 1);
  EXPECT_EQ(out["doubtful"], doubts.size()) << "as the command";
}

TEST_F(APage, PlansASurveyOfItsOwnNightsOrOfWhatIsAssumed) {
  open({.animals = 6, .again = 4, .fresh = 1, .unusable = 0});
  const nlohmann::json plan = get("/api/plan?animals=80&chance=0.3&nights=3,5&traps_now=10&traps=10,20");
  EXPECT_EQ(plan["rows"].size(), 4u);
  EXPECT_EQ(plan["animals"], 80);
  EXPECT_EQ(plan["rows"][0]["nights"], 3);
  EXPECT_TRUE(plan["rows"][3]["enough"].get<bool>()) << plan["rows"][3];
  EXPECT_EQ(plan["chart"].get<std::string>().substr(0, 4), "<svg");
  EXPECT_EQ(ask("/api/plan?animals=many").status, 422);
  EXPECT_EQ(ask("/api/plan?animals=80&chance=0.3&nights=some").status, 400);
  EXPECT_EQ(ask("/api/plan?animals=80&chance=7").status, 422);
  EXPECT_EQ(ask("/api/plan?animals=80&chance=0.3&nights=2-60&traps=1-40").status, 413);
  EXPECT_EQ(ask("/api/plan?site=Nowhere").status, 422) << "no nights to plan from";
}

TEST_F(APage, NamesTwoCapturesOfANightThatMayBeOneNewAnimal) {
  open({.animals = 3, .again = 0, .fresh = 2, .unusable = 0, .fresh_twice = 1});
  ranked_night();
  const std::string a = pond.fresh[0].value, b = pond.twice[0].value, other = pond.fresh[1].value;
  const nlohmann::json twins = get("/api/capture/" + a)["twins"];
  ASSERT_EQ(twins.size(), 1u);
  EXPECT_EQ(twins[0]["capture"], b);
  EXPECT_GT(twins[0]["probability"], 0.5);
  EXPECT_EQ(get("/api/capture/" + b)["twins"][0]["capture"], a);
  EXPECT_TRUE(get("/api/capture/" + other)["twins"].empty());
  const nlohmann::json said = say("/api/verdict", {{"capture", a}, {"other", b}, {"answer", "different"}});
  ranked_night();
  EXPECT_TRUE(get("/api/capture/" + a)["twins"].empty()) << "a person said that they are two";
  say("/api/take_back", {{"target", said["entry"]}});
  ranked_night();
  EXPECT_EQ(get("/api/capture/" + a)["twins"].size(), 1u);
  // Two in hand the same night: for that a reason is wanted.
  EXPECT_EQ(try_say("/api/verdict", {{"capture", a}, {"other", b}, {"answer", "same"}}).status, 409);
  say("/api/verdict", {{"capture", a},
                       {"other", b},
                       {"answer", "same"},
                       {"reason", "netted again after release"},
                       {"in_spite_of", {"same_night"}}});
  EXPECT_EQ(get("/api/individual/" + a)["captures"].size(), 2u);
  EXPECT_TRUE(get("/api/capture/" + a)["twins"].empty()) << "settled";
}

TEST_F(APage, ShowsThePopulationAndTheLedgerAsTheyStood) {
  open();
  const nlohmann::json population = get("/api/population?site=Alder%20Fen");
  EXPECT_EQ(population["animals"], 6);
  EXPECT_EQ(population["unsettled"], 7);
  EXPECT_EQ(population["unmatchable"], 1);
  EXPECT_EQ(population["discovery"].back()["individuals"], 6);
  EXPECT_FALSE(get("/api/estimates")["models"].empty());
  // The captures of the open night take part with drawn identities, but for the one that shows no belly.
  const nlohmann::json doubt = get("/api/estimates/doubt");
  EXPECT_EQ(doubt["doubtful"], 6);
  EXPECT_EQ(doubt["draws"], 20);
  EXPECT_FALSE(doubt["rows"].empty());
  const nlohmann::json ledger = get("/api/ledger");
  EXPECT_EQ(ledger["entries"][0]["position"], ledger["newest"]);
  EXPECT_EQ(get("/api/ledger?kind=verdict")["entries"].size(), 12u);
  const nlohmann::json newest = get("/api/ledger?kind=verdict")["entries"][0]["position"];
  EXPECT_EQ(get("/api/ledger?kind=verdict&before=" + newest.dump())["entries"].size(), 11u);
  EXPECT_EQ(ask("/api/ledger?before=0").status, 200);
  const nlohmann::json before_all = get("/api/ledger?as_of=2000-01-01");
  EXPECT_EQ(before_all["stood"]["individuals"], 0);
  EXPECT_TRUE(before_all["entries"].empty()) << "entries of later days are not shown as known then";
  EXPECT_EQ(get("/api/ledger?as_of=2100-01-01")["entries"], ledger["entries"]);
  EXPECT_EQ(ask("/api/ledger?as_of=yesterday").status, 422);
  EXPECT_EQ(ask("/api/ledger?before=-1").status, 422);
}

TEST_F(APage, AnswersBadInputWithOneSentenceThatNamesIt) {
  open();
  const std::string capture = pond.fresh[0].value;
  const std::vector<std::pair<std::string, nlohmann::json>> bad = {
      {"/api/verdict", {{"answer", "new"}}},
      {"/api/verdict", {{"capture", "x"}, {"answer", "new"}}},
      {"/api/verdict", {{"capture", capture}, {"answer", "maybe"}}},
      {"/api/verdict", {{"capture", capture}, {"answer", "same"}}},
      {"/api/verdict", {{"capture", capture}, {"other", capture}, {"answer", "same"}}},
      {"/api/verdict", {{"capture", capture}, {"answer", "new"}, {"after", -1}}},
      {"/api/verdict", {{"capture", capture}, {"answer", "new"}, {"reason", "a\nb"}}},
      {"/api/verdict", {{"capture", capture}, {"answer", "new"}, {"reason", 7}}},
      {"/api/verdict", {{"capture", capture}, {"answer", "new"}, {"reason", std::string(1001, 'x')}}},
      {"/api/reading", {{"capture", capture}}},
      {"/api/accept", {{"captures", nlohmann::json::array()}}},
      {"/api/midline", {{"capture", capture}, {"photo", std::string(64, 'a')}, {"points", {{1, 2}, {3, 4}}}}},
      {"/api/take_back", {{"target", capture}}}};
  const auto before = get("/api/hello")["position"];
  for (const auto& [target, body] : bad) {
    const Response response = try_say(target, body);
    EXPECT_GE(response.status, 404) << target << body;
    EXPECT_LT(response.status, 500) << target << body;
    EXPECT_FALSE(nlohmann::json::parse(response.body)["error"]["sentence"].get<std::string>().empty());
  }
  EXPECT_EQ(try_say("/api/verdict", {{"capture", capture}, {"answer", "new"}}, "").status, 422);
  EXPECT_EQ(try_say("/api/verdict", {{"capture", capture}, {"answer", "new"}}, "\x01").status, 422);
  EXPECT_EQ(get("/api/hello")["position"], before) << "nothing was half-taken";
  EXPECT_EQ(ask("/api/nothing").status, 404);
  EXPECT_EQ(ask("/api/night/2031-02-30").status, 422);
  EXPECT_EQ(ask("/api/capture/" + std::string(36, '0')).status, 422);
}

TEST_F(APage, EmbedsItsFilesAndLoadsNothingFromOutside) {
  open({.animals = 0, .again = 0, .fresh = 0, .unusable = 0});
  const Response index = ask("/");
  EXPECT_EQ(index.status, 200);
  EXPECT_EQ(index.type, "text/html; charset=utf-8");
  EXPECT_EQ(index.body.find("http"), std::string::npos);
  EXPECT_EQ(index.body.find("<style"), std::string::npos);
  for (const char* name :
       {"style.css", "app.js", "night.js", "light_table.js", "d3.min.js", "plot.umd.min.js"})
    EXPECT_EQ(ask("/" + std::string(name)).status, 200) << name;
  EXPECT_EQ(ask("/package.json").status, 404);
  Request head = request("HEAD", "/app.js", "");
  EXPECT_TRUE(page->handle(head).body.empty());
  EXPECT_EQ(get("/api/night")["queue"].size(), 0u) << "an empty catalogue is a page, not an error";
}

}  // namespace
}  // namespace evet::review
