// The fold that is kept up to date, held to the fold of everything: after each step they say the same.
#include "matcher/catalogue/incremental_fold.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/matcher/catalogue/made_up_ledger.h"

namespace evet {
namespace {

using namespace try_out;

// Everything in it, the indices for looking up included.
std::string all_of(const Identities& who) {
  std::string text = told(who);
  for (const Individual& one : who.individuals) {
    text += one.id.value + " " + name(one.sex) + (one.disputed ? " disputed" : "") + " at " +
            std::to_string(who.individual_at.at(one.id)) + ":";
    for (const CaptureId& id : one.captures) text += " " + id.value;
    text += "\n";
  }
  for (const CaptureState& one : who.captures)
    text += one.id.value + " at " + std::to_string(who.capture_at.at(one.id)) + "\n";
  text += std::to_string(who.individual_at.size()) + " " + std::to_string(who.capture_at.size()) + "\n";
  for (const Overridden& one : who.overridden) text += one.verdict.value + " of " + one.capture.value + "\n";
  return text;
}

struct Steps {
  size_t steps = 0, whole = 0, disputes = 0, overridden = 0, undone = 0;

  // Takes the entries in, now one by one, now a few at once.
  void walk(const std::vector<Entry>& entries, unsigned seed) {
    std::mt19937 random(seed);
    Statements statements;
    IncrementalFold kept;
    for (size_t i = 0; i < entries.size(); ++i) {
      add(statements, stamp_of(entries[i]), body_of(entries[i]));
      if (random() % 4 == 0 && i + 1 < entries.size()) continue;
      const Identities& who = kept.update(statements);
      ASSERT_EQ(all_of(who), all_of(fold(statements))) << "ledger " << seed << " after entry " << i;
      ++steps, disputes += who.disputes.size(), overridden += who.overridden.size();
      undone += who.out_of_force.size();
    }
    whole += kept.whole_folds();
  }
};

TEST(IncrementalFold, SaysWhatTheWholeFoldSaysOfMadeUpLedgers) {
  Steps all;
  std::mt19937 random(5);
  for (unsigned seed = 0; seed < 300; ++seed) {
    std::vector<Entry> entries = made_up(seed).entries;
    all.walk(entries, seed);
    std::shuffle(entries.begin(), entries.end(), random);  // as a merge brings them in
    all.walk(entries, seed);
    if (HasFatalFailure()) return;
  }
  EXPECT_GT(all.disputes, 500u);
  EXPECT_GT(all.overridden, 100u);
}

// A pond that is there already, and a long evening's verdicts, slips, second thoughts and
// adjudications on it.
std::vector<Entry> an_evening(unsigned seed, size_t* pond) {
  std::mt19937 random(seed);
  const auto one_of = [&](size_t n) { return static_cast<size_t>(random() % static_cast<unsigned>(n)); };
  HandLedger ledger;
  std::vector<CaptureId> captures;
  std::vector<PhotoId> photos;
  for (int i = 0; i < 16; ++i) {
    captures.push_back(ledger.capture("2031-05-0" + std::to_string(1 + one_of(9)), "c" + std::to_string(i),
                                      one_of(5) == 0 ? "TAG-" + std::to_string(one_of(3)) : std::string()));
    photos.emplace_back(std::to_string(10 + one_of(20)) + std::string(62, '0'));
    ledger.say(person("OB1"), photo_of(photos.back(), captures.back(), "x.jpg", one_of(4) > 0));
  }
  ledger.hear("b");
  *pond = ledger.entries.size();
  std::vector<EntryId> said;
  for (int i = 0; i < 70; ++i) {
    const std::string device = one_of(3) == 0 ? "b" : "a";
    const Actor reader = one_of(6) == 0 ? program() : person("R" + std::to_string(1 + one_of(3)));
    const CaptureId a = captures[one_of(captures.size())], b = captures[one_of(captures.size())];
    const size_t what = one_of(22);
    if (what < 4 && !said.empty()) {
      said.push_back(ledger.say(reader, Withdrawal{said[one_of(said.size())]}, device));
    } else if (what < 6) {
      said.push_back(ledger.say(reader, LabelGiven{a, "N-" + std::to_string(one_of(5))}, device));
    } else if (what < 8) {
      Examination again;
      again.usable = one_of(2) == 0;
      said.push_back(ledger.say(reader, Reexamined{photos[one_of(photos.size())], again}, device));
    } else if (what < 11) {
      said.push_back(ledger.say(reader, Verdict{.capture = a, .answer = Answer::new_individual}, device));
    } else if (what >= 20) {
      said.push_back(ledger.say(
          reader,
          Closing{.capture = a, .as = one_of(2) == 0 ? ClosedAs::no_animal : ClosedAs::not_identifiable},
          device));
    } else if (a != b) {
      Verdict verdict{.capture = a, .other = b, .answer = static_cast<Answer>(one_of(5) < 3 ? 0 : one_of(3))};
      verdict.planted = one_of(12) == 0;
      if (one_of(6) == 0 && !said.empty()) verdict.settles = {said[one_of(said.size())], said.back()};
      said.push_back(ledger.say(reader, verdict, device));
    }
  }
  return ledger.entries;
}

TEST(IncrementalFold, FoldsAnEveningWithoutFoldingEverythingAgain) {
  Steps all;
  size_t ponds = 0;
  for (unsigned seed = 0; seed < 150; ++seed) {
    size_t pond = 0;
    const std::vector<Entry> entries = an_evening(seed, &pond);
    Statements statements;
    IncrementalFold kept;
    for (size_t i = 0; i < entries.size(); ++i) {
      add(statements, stamp_of(entries[i]), body_of(entries[i]));
      if (i + 1 < pond) continue;
      const Identities& who = kept.update(statements);
      ASSERT_EQ(all_of(who), all_of(fold(statements))) << "evening " << seed << " after entry " << i;
      ++all.steps, all.disputes += who.disputes.size(), all.overridden += who.overridden.size();
      all.undone += who.out_of_force.size();
    }
    ASSERT_EQ(kept.whole_folds(), 1u);
    ++ponds;
  }
  EXPECT_GT(all.steps, 60 * ponds);
  EXPECT_GT(all.disputes, 1000u);
  EXPECT_GT(all.overridden, 500u);
  EXPECT_GT(all.undone, 1000u);
}

TEST(IncrementalFold, TellsTwoOfOneNameApartAndOneAloneByItsName) {
  HandLedger ledger;
  const CaptureId a = ledger.capture("2031-05-01", "a"), b = ledger.capture("2031-05-02", "b");
  ledger.fresh(a), ledger.fresh(b);
  IncrementalFold kept;
  Statements statements = ledger.statements();
  kept.update(statements);
  const auto say = [&](const Body& body) {
    ledger.say(person("R1"), body);
    add(statements, stamp_of(ledger.entries.back()), body);
    return kept.update(statements);
  };
  say(LabelGiven{a, "Ada"});
  const Identities two = say(LabelGiven{b, "Ada"});
  EXPECT_NE(two.individuals[0].name, two.individuals[1].name);
  EXPECT_TRUE(two.individuals[0].name.starts_with("Ada ("));
  const Identities one = say(LabelGiven{b, "Bea"});
  EXPECT_EQ(one.individuals[0].name, "Ada") << "though nothing was said of it";
  EXPECT_EQ(kept.whole_folds(), 1u);
}

}  // namespace
}  // namespace evet
