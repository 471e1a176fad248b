// What must hold of every ledger, tried on hundreds of made-up ones: several devices that hear of each
// other now and then, readers who contradict themselves and each other, slips, adjudications, tags,
// labels, the program.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <random>
#include <set>

#include "tests/matcher/catalogue/made_up_ledger.h"

namespace evet {
namespace {

using namespace try_out;

constexpr unsigned kLedgers = 400;

TEST(FoldProperty, TheOrderOfArrivalDoesNotMatter) {
  std::mt19937 random(11);
  size_t disputes = 0, overridden = 0, aliases = 0, twins = 0;
  for (unsigned seed = 0; seed < kLedgers; ++seed) {
    HandLedger ledger = made_up(seed);
    const Identities who = ledger.fold();
    disputes += who.disputes.size(), overridden += who.overridden.size();
    for (const Individual& one : who.individuals) aliases += one.aliases.size();
    for (const CaptureState& one : who.captures) twins += one.twins.size();
    const std::string expected = told(who);
    for (int i = 0; i < 4; ++i) {
      std::shuffle(ledger.entries.begin(), ledger.entries.end(), random);
      ASSERT_EQ(told(ledger.fold()), expected) << "ledger " << seed;
    }
  }
  // The made-up ledgers do reach what they are meant to reach.
  EXPECT_GT(disputes, 100u);
  EXPECT_GT(overridden, 50u);
  EXPECT_GT(aliases, 20u);
}

TEST(FoldProperty, EveryCaptureIsInOnePlaceAndInOrder) {
  for (unsigned seed = 0; seed < kLedgers; ++seed) {
    const Identities who = made_up(seed).fold();
    std::map<CaptureId, IndividualId> place;
    for (const Individual& one : who.individuals) {
      ASSERT_FALSE(one.captures.empty());
      EXPECT_EQ(one.id.value, one.captures.front().value);
      EXPECT_TRUE(one.placed || one.captures.size() > 1);
      for (const CaptureId& capture : one.captures) EXPECT_TRUE(place.emplace(capture, one.id).second);
    }
    for (const CaptureState& capture : who.captures) {
      EXPECT_EQ(capture.individual.has_value(), place.contains(capture.id));
      if (capture.individual) {
        EXPECT_EQ(place[capture.id], *capture.individual);
      }
    }
    EXPECT_TRUE(std::is_sorted(who.captures.begin(), who.captures.end(), [](const auto& a, const auto& b) {
      return std::pair(a.facts.night, a.id) < std::pair(b.facts.night, b.id);
    }));
    std::set<std::string> names;
    for (const Individual& one : who.individuals) EXPECT_TRUE(names.insert(one.name).second);
  }
}

// No verdict wins silently: whoever is said to be different by a person in force is not one individual, nor
// are two tags.
TEST(FoldProperty, NobodyIsJoinedAgainstAPersonsWord) {
  int checked = 0;
  for (unsigned seed = 0; seed < kLedgers; ++seed) {
    const HandLedger ledger = made_up(seed);
    const Identities who = ledger.fold();
    const Statements statements = ledger.statements();
    std::map<std::tuple<std::string, CaptureId, CaptureId>, const Said<Verdict>*> newest;
    for (const auto& said : statements.verdicts) {
      if (said.what.other.empty() || said.what.planted || said.stamp.actor.kind == ActorKind::program)
        continue;
      if (std::binary_search(who.out_of_force.begin(), who.out_of_force.end(), said.stamp.id)) continue;
      const CaptureId a = who.capture(said.what.capture)->id, b = who.capture(said.what.other)->id;
      auto& slot = newest[{said.stamp.actor.name, std::min(a, b), std::max(a, b)}];
      if (slot == nullptr || slot->stamp.id < said.stamp.id) slot = &said;
    }
    for (const auto& [key, said] : newest) {
      if (said->what.answer != Answer::different) continue;
      const auto a = who.capture(said->what.capture)->individual,
                 b = who.capture(said->what.other)->individual;
      if (std::get<1>(key) == std::get<2>(key)) continue;  // twins
      EXPECT_FALSE(a && b && *a == *b) << "ledger " << seed;
      ++checked;
    }
    for (const Individual& one : who.individuals) {
      std::set<std::string> tags;
      for (const CaptureId& capture : one.captures)
        if (const std::string& tag = who.capture(capture)->facts.individual; !tag.empty()) tags.insert(tag);
      EXPECT_LE(tags.size(), 1u) << "ledger " << seed;
    }
  }
  EXPECT_GT(checked, 200);
}

TEST(FoldProperty, UndoAndRedoLeaveEverybodyWhereTheyWere) {
  for (unsigned seed = 0; seed < kLedgers; ++seed) {
    HandLedger ledger = made_up(seed);
    Identities before = ledger.fold();
    std::vector<EntryId> verdicts;
    for (const Entry& entry : ledger.entries)
      if (entry.kind == Verdict::kKind) verdicts.push_back(entry.id);
    if (verdicts.empty()) continue;
    const EntryId undone = ledger.withdraw(verdicts[seed % verdicts.size()]);
    ledger.withdraw(undone);
    Identities after = ledger.fold();
    after.out_of_force.erase(std::find(after.out_of_force.begin(), after.out_of_force.end(), undone));
    EXPECT_EQ(told(after), told(before)) << "ledger " << seed;
  }
}

TEST(FoldProperty, AsItStoodIsTheFoldOfWhatHadBeenSaid) {
  for (unsigned seed = 0; seed < kLedgers; ++seed) {
    HandLedger ledger = made_up(seed);
    const Statements all = ledger.statements();
    const size_t half = ledger.entries.size() / 2;
    const std::string time = ledger.entries[half].time;
    ledger.entries.resize(half + 1);
    EXPECT_EQ(told(fold(as_it_stood(all, time))), told(ledger.fold())) << "ledger " << seed;
  }
}

}  // namespace
}  // namespace evet
