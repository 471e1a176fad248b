// What speaks against a verdict holds at the server as well, whoever asks; and what belongs to nobody is closed.
#include <gmock/gmock.h>

#include "tests/tools/review/page_fixture.h"

namespace evet::review {
namespace {

using testing::HasSubstr;

TEST_F(APage, RefusesWhatSpeaksAgainstItselfUntilAReasonIsGiven) {
  open();
  const std::string female = pond.again[0].value, male = pond.captures[1][1].value;
  const nlohmann::json verdict = {{"capture", female}, {"other", male}, {"answer", "same"}};
  const nlohmann::json found =
      get("/api/objections?capture=" + female + "&other=" + male + "&answer=same")["objections"];
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0]["code"], "other_sex");
  EXPECT_EQ(found[0]["photos"].size(), 2u);

  EXPECT_EQ(try_say("/api/verdict", verdict).status, 409);
  nlohmann::json reasoned = verdict;
  reasoned["reason"] = "sexed wrongly in the dark";
  EXPECT_EQ(try_say("/api/verdict", reasoned).status, 409) << "it was not shown";
  reasoned["in_spite_of"] = {"other_sex"};
  const auto after = get("/api/hello")["position"];
  reasoned["after"] = after;
  const nlohmann::json said = say("/api/verdict", reasoned);
  EXPECT_TRUE(say("/api/verdict", reasoned)["again"].get<bool>()) << "a retry is not weighed again";
  Catalogue catalogue = Catalogue::open(folder.path / "pond", system_env());
  const auto list = overruled(catalogue);
  ASSERT_EQ(list.size(), 1u);
  EXPECT_EQ(list[0].entry.value, said["entry"]);
  EXPECT_EQ(list[0].reason, "sexed wrongly in the dark");
  // Blind readers are told nothing of the sheet.
  nlohmann::json blind = verdict;
  blind["blind"] = true;
  EXPECT_EQ(try_say("/api/verdict", blind, "LL").status, 200);
}

TEST_F(APage, TheTrueCaseIsRecordedWithoutAWord) {
  open();
  for (std::size_t i = 0; i < pond.again.size(); ++i)
    say("/api/verdict", {{"capture", pond.again[i].value},
                         {"other", pond.captures[i][1].value},
                         {"answer", "same"},
                         {"reason", ""}});
  for (const CaptureId& fresh : pond.fresh)
    say("/api/verdict", {{"capture", fresh.value}, {"answer", "new"}});
}

TEST_F(APage, ClosesAnUnusableCaptureAndUndoesIt) {
  open();
  const std::string id = pond.unusable[0].value;
  EXPECT_EQ(try_say("/api/verdict", {{"capture", id}, {"answer", "new"}}).status, 409) << "a phantom animal";
  EXPECT_EQ(try_say("/api/close", {{"capture", id}, {"as", "nothing"}}).status, 422);
  EXPECT_EQ(try_say("/api/close", {{"capture", id}, {"as", "same_capture"}}).status, 422);
  EXPECT_EQ(try_say("/api/close", {{"capture", pond.fresh[0].value}, {"as", "no_animal"}}).status, 409)
      << "a belly was found in it";
  say("/api/close", {{"capture", id}, {"as", "no_animal"}, {"reason", "an empty tray"}});
  nlohmann::json night = get("/api/night");
  EXPECT_EQ(night["glance"]["unusable"], 0);
  EXPECT_EQ(night["glance"]["closed"], 1);
  EXPECT_EQ(night["closed"][0]["as"], "no animal in it");
  EXPECT_EQ(get("/api/capture/" + id)["closed"], "no animal in it");
  EXPECT_THAT(night["undo"]["sentence"].get<std::string>(), HasSubstr("closed: no animal in it"));
  say("/api/take_back", {{"target", night["undo"]["target"]}});
  EXPECT_EQ(get("/api/night")["glance"]["unusable"], 1);
}

TEST_F(APage, FindsCapturesAndFiltersTheLedger) {
  open({.animals = 2, .again = 1, .fresh = 1, .unusable = 1});
  const std::string id = pond.captures[0][0].value;
  EXPECT_EQ(get("/api/captures?find=2031-05-14")["found"], 2) << "those with a photo that can be seen";
  EXPECT_EQ(get("/api/captures?find=nobody")["found"], 0);
  const auto count = [&](const std::string& query) { return get("/api/ledger?" + query)["entries"].size(); };
  EXPECT_EQ(count("capture=" + id), 4u) << "itself, its photo, new, and the same said of the next";
  EXPECT_EQ(count("individual=" + id), 6u);
  EXPECT_EQ(count("individual=" + id + "&kind=verdict"), 2u);
  EXPECT_EQ(count("actor=nobody"), 0u);
  EXPECT_EQ(count("day=2001-01-01"), 0u);
  EXPECT_EQ(ask("/api/ledger?day=May").status, 422);
  EXPECT_EQ(ask("/api/ledger?capture=c1").status, 422);
  EXPECT_EQ(get("/api/ledger")["head_hash"].get<std::string>().size(), 64u);
  const Response csv = ask("/api/ledger/export?kind=verdict&individual=" + id);
  EXPECT_EQ(csv.status, 200);
  EXPECT_EQ(std::count(csv.body.begin(), csv.body.end(), '\n'), 3);
  EXPECT_THAT(csv.headers.at("Content-Disposition"), HasSubstr("ledger.csv"));
}

TEST_F(APage, ShowsAStripAlongPointsThatAreNotSaved) {
  open();
  const std::string photo = get("/api/capture/" + pond.fresh[0].value)["photos"][0]["photo"];
  const auto before = get("/api/hello")["position"];
  const nlohmann::json seen = get("/api/along/" + photo + "?points=80,20;80,250;80,490");
  EXPECT_GT(seen["strip"].get<std::string>().size(), 1000u);
  EXPECT_EQ(get("/api/hello")["position"], before);
  EXPECT_EQ(ask("/api/along/" + photo + "?points=80,20").status, 422);
  EXPECT_EQ(ask("/api/along/" + photo + "?points=80;90,nan").status, 422);
  EXPECT_EQ(ask("/api/along/" + std::string(64, 'f') + "?points=80,20;80,250").status, 404);
}

}  // namespace
}  // namespace evet::review
