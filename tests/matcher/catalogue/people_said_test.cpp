#include "matcher/catalogue/people_said.h"

#include <gtest/gtest.h>

#include "tests/matcher/catalogue/made_up_ledger.h"

namespace evet {
namespace {

using namespace try_out;

// Two known individuals, {a1, a2} and {b1}, and a capture that waits.
struct Pond : HandLedger {
  CaptureId a1 = capture("2031-05-01", "a1"), b1 = capture("2031-05-01", "b1"),
            a2 = capture("2031-05-02", "a2"), d = capture("2031-05-03", "d"), e = capture("2031-05-03", "e");
  IndividualId a{a1.value}, b{b1.value};

  Pond() { fresh(a1), fresh(b1), same(a2, a1); }
  std::map<CaptureId, PeopleSaid> people() const { return people_said(statements(), fold(), {d, e}); }
  PeopleSaid of_d() const { return people().at(d); }
};
using Ids = std::set<IndividualId>;

RankedCapture advised(const CaptureId& capture, const IndividualId& same_as) {
  RankedCapture ranked;
  ranked.capture = capture;
  ranked.advice = same_as.empty() ? Advice::new_individual : Advice::same;
  if (!same_as.empty()) ranked.candidates.emplace_back().individual = same_as;
  return ranked;
}

TEST(PeopleSaid, DifferentFromOneCaptureRulesOutItsWholeIndividual) {
  Pond pond;
  EXPECT_TRUE(pond.of_d().ruled_out().empty());
  pond.different(pond.d, pond.a2, "R2");
  ASSERT_EQ(pond.of_d().different.size(), 1u);
  EXPECT_EQ(pond.of_d().ruled_out(), Ids{pond.a});
  EXPECT_EQ(pond.of_d().different[0].by, "R2");
  EXPECT_EQ(pond.of_d().different[0].on, "2031-05-01");
  EXPECT_EQ(pond.of_d().different[0].other, pond.a2);
  pond.different(pond.b1, pond.d);  // the other way round is the same pair
  EXPECT_EQ(pond.of_d().ruled_out(), (Ids{pond.a, pond.b}));
}

TEST(PeopleSaid, AnIndividualThatFallsApartIsRuledOutOnlyWhereItWasMeant) {
  Pond pond;
  pond.different(pond.d, pond.a2);
  pond.different(pond.a2, pond.a1, "R2");  // contests the join, and a2 belongs to nobody
  ASSERT_FALSE(pond.fold().capture(pond.a2)->individual);
  EXPECT_TRUE(pond.of_d().ruled_out().empty());
  EXPECT_TRUE(pond.of_d().has_ruled_out(pond.a2));
}

TEST(PeopleSaid, OnlyWhatIsInForceAndNotRevisedBinds) {
  Pond pond;
  const EntryId said = pond.different(pond.d, pond.a1);
  const EntryId undone = pond.withdraw(said);
  EXPECT_TRUE(pond.of_d().ruled_out().empty());
  pond.withdraw(undone);
  EXPECT_EQ(pond.of_d().ruled_out(), Ids{pond.a});
  pond.verdict("R1", pond.a1, Answer::cannot_tell, pond.d);  // the same reader, of the same pair
  EXPECT_TRUE(pond.of_d().ruled_out().empty());
  EXPECT_EQ(pond.of_d().cannot_tell.size(), 1u);
  const EntryId another = pond.different(pond.d, pond.b1, "R2");
  pond.say(person("R3"),
           Verdict{.capture = pond.d, .other = pond.a1, .answer = Answer::different, .settles = {another}});
  EXPECT_EQ(pond.of_d().ruled_out(), Ids{pond.a});
}

TEST(PeopleSaid, NeitherPlantedVerdictsNorTheProgramBind) {
  Pond pond;
  pond.say(program(), Verdict{.capture = pond.d, .other = pond.a1, .answer = Answer::different});
  pond.say(person("R1"),
           Verdict{.capture = pond.d, .other = pond.a1, .answer = Answer::different, .planted = true});
  EXPECT_TRUE(pond.of_d().different.empty());
}

TEST(PeopleSaid, ReadersWhoContradictEachOtherLeaveItToPeople) {
  Pond pond;
  pond.different(pond.d, pond.a1, "R1");
  pond.same(pond.d, pond.a1, "R2");
  EXPECT_TRUE(pond.of_d().disputed);
  EXPECT_EQ(pond.of_d().ruled_out(), Ids{pond.a});
  EXPECT_TRUE(pond.of_d().leaves_open(pond.b));
  EXPECT_TRUE(pond.of_d().leaves_open({}));
}

TEST(PeopleSaid, WhatCouldNotBeToldIsNotToldByTheProgram) {
  Pond pond;
  pond.verdict("R1", pond.a1, Answer::cannot_tell, pond.d);
  EXPECT_TRUE(pond.of_d().leaves_open(pond.a));
  EXPECT_FALSE(pond.of_d().leaves_open(pond.b)) << "it was said of a1";
  pond.verdict("R1", pond.d, Answer::cannot_tell, pond.a2);
  EXPECT_TRUE(pond.of_d().leaves_open(pond.b)) << "now it is said of this capture";
}

TEST(BindTo, LeavesTwoAnimalsThatLookLikeOneIndividualToPeople) {
  Pond pond;
  pond.different(pond.d, pond.e);
  const auto advice = [&](const IndividualId& of_d, const IndividualId& of_e) {
    std::map<CaptureId, PeopleSaid> people = pond.people();
    std::vector<RankedCapture> ranked{advised(pond.d, of_d), advised(pond.e, of_e)};
    bind_to(people, ranked);
    EXPECT_EQ(people.at(pond.d).rivals.size(), of_d == of_e && !of_d.empty() ? 1u : 0u);
    return std::pair(ranked[0].advice, ranked[1].advice);
  };
  EXPECT_EQ(advice(pond.a, pond.a), std::pair(Advice::look, Advice::look));
  EXPECT_EQ(advice(pond.a, pond.b), std::pair(Advice::same, Advice::same));
  EXPECT_EQ(advice({}, {}), std::pair(Advice::new_individual, Advice::new_individual));
}

// The oracle is the fold: whatever the program may still advise stands there as advised, of any ledger; so a
// second ranking has nothing to add.
TEST(BindTo, WhatTheProgramMayAdviseStands) {
  std::mt19937 random(5);
  size_t stood = 0, left = 0;
  for (unsigned seed = 0; seed < 1500; ++seed) {
    HandLedger ledger = made_up(seed);
    const Identities who = ledger.fold();
    std::set<CaptureId> waiting;
    for (const CaptureState& capture : who.captures)
      if (!capture.individual && !capture.closed) waiting.insert(capture.id);
    std::map<CaptureId, PeopleSaid> people = people_said(ledger.statements(), who, waiting);
    std::vector<RankedCapture> ranked;
    for (const CaptureId& id : waiting) {
      const size_t n = random() % (who.individuals.size() + 1);
      ranked.push_back(advised(id, n == 0 ? IndividualId() : who.individuals[n - 1].id));
    }
    bind_to(people, ranked);
    for (const RankedCapture& one : ranked) {
      if (one.advice == Advice::look) {
        ++left;
        continue;
      }
      Verdict verdict{.capture = one.capture, .answer = Answer::new_individual};
      if (one.advice == Advice::same) {
        const auto& group = who.individual(one.candidates.front().individual)->captures;
        verdict.answer = Answer::same, verdict.other = group[random() % group.size()];
      }
      ledger.say(program(), verdict);
    }
    const Identities after = ledger.fold();
    for (const RankedCapture& one : ranked) {
      if (one.advice == Advice::look) continue;
      const CaptureState& capture = *after.capture(one.capture);
      ASSERT_TRUE(capture.individual) << "ledger " << seed << ", capture " << one.capture.value << "\n"
                                      << told(who) << "then\n"
                                      << told(after);
      EXPECT_TRUE(capture.by_program) << "ledger " << seed;
      if (one.advice == Advice::same) {
        EXPECT_EQ(*capture.individual,
                  *after.capture(CaptureId(one.candidates.front().individual.value))->individual)
            << "ledger " << seed;
      }
      ++stood;
    }
  }
  EXPECT_GT(stood, 500u);
  EXPECT_GT(left, 500u);
}

}  // namespace
}  // namespace evet
