#include "matcher/catalogue/night_facts.h"

#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "matcher/catalogue/known_nights.h"
#include "matcher/catalogue/merge.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

using namespace try_out;

const NightIntake::Visit kNight{"Alder Fen", "north", "2031-05-14"};

NightFactsSaid says(nlohmann::json changes, const NightIntake::Visit& visit = kNight) {
  return {visit, std::move(changes), "from the field book"};
}

TEST(NightFacts, OfEachFieldTheLatestCountsAndUndoPutsTheOneBeforeBack) {
  const Folder folder;
  testing_env::StillEnv env(7);
  Catalogue pond = Catalogue::create(folder.path / "pond", "Alder Fen", person("KM"), env);
  EXPECT_EQ(night_facts_of(pond, kNight), NightFacts{});
  pond.append(person("KM"), {says({{"method", "bottle traps"}, {"effort", 12}, {"weather", "calm"}})});
  const EntryId second = pond.append(person("KM"), {says({{"effort", 14}, {"weather", nullptr}})}).front().id;
  NightFacts facts = night_facts_of(pond, kNight);
  EXPECT_EQ(facts.method, "bottle traps");
  EXPECT_EQ(facts.effort, 14);
  EXPECT_EQ(facts.weather, "");
  EXPECT_EQ(night_facts_of(pond, {"Alder Fen", "", "2031-05-14"}), NightFacts{}) << "another pond";
  pond.append(person("R2"), {Withdrawal{second, "a slip"}});
  facts = night_facts_of(pond, kNight);
  EXPECT_EQ(facts.effort, 12);
  EXPECT_EQ(facts.weather, "calm");
}

// Whoever merges into whom: the same facts on both sides.
TEST(NightFacts, MergeIsAUnionAndTheLaterEntryCounts) {
  const Folder folder;
  testing_env::StillEnv here_env(7), there_env(8);
  Catalogue here = Catalogue::create(folder.path / "here", "Alder Fen", person("KM"), here_env);
  Catalogue there = Catalogue::create(folder.path / "there", "Alder Fen", person("TR"), there_env);
  here.append(person("KM"), {says({{"effort", 12}, {"holder", "K. Moor"}})});
  there_env.clock.unix_ms = here_env.clock.unix_ms + 60'000;
  there.append(person("TR"), {says({{"effort", 13}, {"weather", "rain"}})});
  merge(here, there, person("KM"));
  merge(there, here, person("TR"));
  const NightFacts facts = night_facts_of(here, kNight);
  EXPECT_EQ(facts.effort, 13);
  EXPECT_EQ(facts.holder, "K. Moor");
  EXPECT_EQ(facts.weather, "rain");
  EXPECT_EQ(facts, night_facts_of(there, kNight));
}

TEST(NightFacts, WhatCannotBeIsRefusedByName) {
  const Folder folder;
  testing_env::StillEnv env(7);
  Catalogue pond = Catalogue::create(folder.path / "pond", "Alder Fen", person("KM"), env);
  const auto refusal = [&](const NightFactsSaid& said) -> std::string {
    try {
      pond.append(person("KM"), {said});
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::bad_input);
      return error.what();
    }
    return "taken";
  };
  EXPECT_NE(refusal(says({{"effort", 0}})).find("'effort' is 0"), std::string::npos);
  EXPECT_NE(refusal(says({{"effort", -1}})).find("'effort' is out of range"), std::string::npos);
  EXPECT_NE(refusal(says({{"air_c", 400}})).find("'air_c' is out of range"), std::string::npos);
  EXPECT_NE(refusal(says({{"latitude", 91}})).find("'latitude' is out of range"), std::string::npos);
  EXPECT_NE(refusal(says({{"method", 7}})).find("'method'"), std::string::npos);
  EXPECT_NE(refusal(says({{"method", std::string(2000, 'x')}})).find("'method'"), std::string::npos);
  EXPECT_NE(refusal(says(nlohmann::json::array())).find("'changes'"), std::string::npos);
  EXPECT_NE(refusal(says({}, {"Alder Fen", "", "May"})).find("'May' is not a date"), std::string::npos);
  EXPECT_NE(refusal(says({}, {"", "", "2031-05-14"})).find("'site'"), std::string::npos);
  EXPECT_TRUE(pond.ledger({.kind = NightFactsSaid::kKind}).empty());
}

TEST(NightFacts, ThePatchBetweenTwoStatesLeadsFromOneToTheOther) {
  NightFacts before, after;
  before.method = "torch", before.air_c = 7, before.notes = "n";
  after.method = "net", after.water_c = 9.5, after.notes = "n";
  const NightFactsSaid said = facts_between(kNight, before, after, "");
  EXPECT_EQ(said.changes.size(), 3U);
  EXPECT_EQ(changed(before, said), after);
  EXPECT_TRUE(facts_between(kNight, after, after, "").changes.empty());
}

TEST(KnownNights, WorkedNightsWithAndWithoutACatch) {
  const Folder folder;
  testing_env::StillEnv env(7);
  Catalogue pond = Catalogue::create(folder.path / "pond", "Alder Fen", person("KM"), env);
  EXPECT_TRUE(visits_of(pond).empty());
  NightIntake night{
      .sheet = "n.csv", .nights = {"2031-05-20"}, .visits = {{"Alder Fen", "south", "2031-05-20"}}};
  const EntryId entry =
      pond.append(person("KM"), {Capture{pond.new_capture_id(), facts("2031-05-14", "c1")}, night}).back().id;
  const std::vector<NightIntake::Visit> both{{"Alder Fen", "north", "2031-05-14"},
                                             {"Alder Fen", "south", "2031-05-20"}};
  EXPECT_EQ(visits_of(pond), both);
  pond.append(person("KM"), {Withdrawal{entry, "it was not worked"}});
  EXPECT_EQ(visits_of(pond).size(), 1U);
}

}  // namespace
}  // namespace evet
