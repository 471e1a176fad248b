// The rules of FORMAT.md, one by one, each with the smallest ledger that shows it.
#include "matcher/catalogue/fold.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "tests/matcher/catalogue/hand_ledger.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

bool together(const Identities& who, const CaptureId& a, const CaptureId& b) {
  const auto x = who.capture(a)->individual, y = who.capture(b)->individual;
  return x && y && *x == *y;
}

// Three captures, the first an individual of its own.
struct Three : HandLedger {
  CaptureId a = capture("2031-05-01", "a"), b = capture("2031-05-02", "b"), c = capture("2031-05-03", "c");
  EntryId a_new = fresh(a);
};

TEST(Fold, ACaptureThatNobodyPlacedIsUnsettled) {
  HandLedger ledger;
  const CaptureId a = ledger.capture("2031-05-01", "a");
  const Identities who = ledger.fold();
  EXPECT_EQ(who.unsettled(), 1u);
  EXPECT_FALSE(who.capture(a)->individual);
  EXPECT_THAT(who.individuals, IsEmpty());
}

TEST(Fold, SameJoinsAndTheOldestNightNamesTheIndividual) {
  Three ledger;
  ledger.same(ledger.c, ledger.a);
  const Identities who = ledger.fold();
  ASSERT_EQ(who.individuals.size(), 1u);
  EXPECT_THAT(who.individuals[0].captures, ElementsAre(ledger.a, ledger.c));
  EXPECT_EQ(who.individuals[0].id.value, ledger.a.value);
  EXPECT_EQ(who.unsettled(), 1u);
}

TEST(Fold, UndoSplitsAndRedoJoinsAgain) {
  Three ledger;
  const EntryId joined = ledger.same(ledger.b, ledger.a);
  const EntryId undone = ledger.withdraw(joined);
  EXPECT_FALSE(together(ledger.fold(), ledger.a, ledger.b));
  EXPECT_THAT(ledger.fold().out_of_force, ElementsAre(joined));
  ledger.withdraw(undone);
  EXPECT_TRUE(together(ledger.fold(), ledger.a, ledger.b));
  EXPECT_THAT(ledger.fold().out_of_force, ElementsAre(undone));
}

TEST(Fold, AReadersLaterOpinionOfAPairReplacesTheEarlier) {
  Three ledger;
  ledger.same(ledger.b, ledger.a);
  ledger.different(ledger.a, ledger.b);  // the other way round is the same pair
  const Identities who = ledger.fold();
  EXPECT_FALSE(together(who, ledger.a, ledger.b));
  EXPECT_THAT(who.disputes, IsEmpty());
}

TEST(Fold, TwoReadersWhoContradictMakeADispute) {
  Three ledger;
  const EntryId yes = ledger.same(ledger.b, ledger.a, "R1"), no = ledger.different(ledger.b, ledger.a, "R2");
  const Identities who = ledger.fold();
  ASSERT_EQ(who.disputes.size(), 1u);
  EXPECT_THAT(who.disputes[0].against, ElementsAre(no));
  EXPECT_THAT(who.disputes[0].contested, ElementsAre(yes));
  EXPECT_FALSE(together(who, ledger.a, ledger.b));
  EXPECT_TRUE(who.capture(ledger.b)->disputed);
  EXPECT_FALSE(who.capture(ledger.c)->disputed);
}

TEST(Fold, AChainAcrossADifferenceIsContestedAsAWhole) {
  Three ledger;
  const EntryId ab = ledger.same(ledger.b, ledger.a), bc = ledger.same(ledger.c, ledger.b);
  ledger.different(ledger.c, ledger.a, "R2");
  const Identities who = ledger.fold();
  ASSERT_EQ(who.disputes.size(), 1u);
  EXPECT_THAT(who.disputes[0].contested, ElementsAre(ab, bc));
  EXPECT_FALSE(together(who, ledger.a, ledger.b));
  EXPECT_FALSE(together(who, ledger.b, ledger.c));
}

TEST(Fold, AnAdjudicationSettlesADispute) {
  Three ledger;
  const EntryId yes = ledger.same(ledger.b, ledger.a, "R1"), no = ledger.different(ledger.b, ledger.a, "R2");
  const EntryId settled = ledger.say(
      person("R3"),
      Verdict{.capture = ledger.b, .other = ledger.a, .answer = Answer::same, .settles = {yes, no}});
  EXPECT_THAT(ledger.fold().disputes, IsEmpty());
  EXPECT_TRUE(together(ledger.fold(), ledger.a, ledger.b));
  ledger.withdraw(settled, "R3");  // and is itself undone like any other word
  EXPECT_EQ(ledger.fold().disputes.size(), 1u);
}

TEST(Fold, KnownIdentitiesJoinAndForbid) {
  HandLedger ledger;
  const CaptureId a = ledger.capture("2031-05-01", "a", "TAG-1"),
                  b = ledger.capture("2031-05-02", "b", "TAG-1"),
                  c = ledger.capture("2031-05-03", "c", "TAG-2");
  EXPECT_TRUE(together(ledger.fold(), a, b));
  EXPECT_EQ(ledger.fold().individuals.size(), 2u);
  const EntryId wrong = ledger.same(c, a);
  const Identities who = ledger.fold();
  ASSERT_EQ(who.disputes.size(), 1u);
  EXPECT_THAT(who.disputes[0].against, IsEmpty());
  EXPECT_THAT(who.disputes[0].contested, ElementsAre(wrong));
  EXPECT_TRUE(together(who, a, b));
  EXPECT_FALSE(together(who, a, c));
}

TEST(Fold, ADifferenceWithinOneKnownIdentityIsADisputeToo) {
  HandLedger ledger;
  const CaptureId a = ledger.capture("2031-05-01", "a", "TAG-1"),
                  b = ledger.capture("2031-05-02", "b", "TAG-1");
  ledger.different(b, a);
  const Identities who = ledger.fold();
  EXPECT_EQ(who.disputes.size(), 1u);
  EXPECT_FALSE(together(who, a, b));
}

TEST(Fold, NewForbidsAJoinWithThoseWhoHadBeenPlaced) {
  Three ledger;
  ledger.fresh(ledger.b, "R1");
  const EntryId joined = ledger.same(ledger.b, ledger.a, "R2");
  const Identities who = ledger.fold();
  ASSERT_EQ(who.disputes.size(), 1u);
  EXPECT_THAT(who.disputes[0].contested, ElementsAre(joined));
}

TEST(Fold, NewDoesNotForbidAJoinWithThoseWhoCameLater) {
  Three ledger;
  ledger.same(ledger.c, ledger.a, "R2");
  EXPECT_THAT(ledger.fold().disputes, IsEmpty());
  EXPECT_TRUE(together(ledger.fold(), ledger.a, ledger.c));
}

TEST(Fold, NewDoesNotForbidWhatItsDeviceCouldNotKnow) {
  // The pond's laptop places a; the field laptop, which has not heard of it, declares b new.
  HandLedger ledger;
  const CaptureId a = ledger.capture(facts("2031-05-01", "a"), "pond");
  ledger.verdict("R1", a, Answer::new_individual, {}, "pond");
  const CaptureId b = ledger.capture(facts("2031-05-02", "b"), "field");
  HandLedger knowing = ledger;
  ledger.verdict("R2", b, Answer::new_individual, {}, "field");
  ledger.verdict("R3", b, Answer::same, a, "pond");
  EXPECT_THAT(ledger.fold().disputes, IsEmpty());
  knowing.hear("field");
  knowing.verdict("R2", b, Answer::new_individual, {}, "field");
  knowing.verdict("R3", b, Answer::same, a, "pond");
  EXPECT_EQ(knowing.fold().disputes.size(), 1u);
}

TEST(Fold, AReaderWhoSaidNewMayChangeTheirMind) {
  Three ledger;
  ledger.fresh(ledger.b, "R1");
  ledger.same(ledger.b, ledger.a, "R1");
  EXPECT_THAT(ledger.fold().disputes, IsEmpty());
  EXPECT_TRUE(together(ledger.fold(), ledger.a, ledger.b));
}

TEST(Fold, TheProgramGivesWayToPeople) {
  Three ledger;
  const EntryId accepted =
      ledger.say(program(), Verdict{.capture = ledger.b, .other = ledger.a, .answer = Answer::same});
  Identities who = ledger.fold();
  EXPECT_TRUE(together(who, ledger.a, ledger.b));
  EXPECT_TRUE(who.capture(ledger.b)->by_program);
  ledger.different(ledger.b, ledger.a);
  who = ledger.fold();
  EXPECT_FALSE(together(who, ledger.a, ledger.b));
  EXPECT_THAT(who.disputes, IsEmpty());
  ASSERT_EQ(who.overridden.size(), 1u);
  EXPECT_EQ(who.overridden[0].verdict, accepted);
}

TEST(Fold, TheProgramCannotWithdrawWhatAPersonSaid) {
  Three ledger;
  const EntryId joined = ledger.same(ledger.b, ledger.a);
  ledger.say(program(), Withdrawal{joined});
  EXPECT_TRUE(together(ledger.fold(), ledger.a, ledger.b));
}

TEST(Fold, NothingReachesForAnEntryThatCameLater) {
  Three ledger;
  HandLedger copy = ledger;
  const EntryId to_come = copy.same(copy.capture("2031-05-01", "x"), ledger.a);
  ledger.withdraw(to_come);
  const CaptureId x = ledger.capture("2031-05-01", "x");
  ledger.same(x, ledger.a);
  EXPECT_TRUE(together(ledger.fold(), x, ledger.a));
}

TEST(Fold, PlantedAnswersMoveNobody) {
  Three ledger;
  ledger.say(person("R1"),
             Verdict{.capture = ledger.b, .other = ledger.a, .answer = Answer::same, .planted = true});
  EXPECT_FALSE(together(ledger.fold(), ledger.a, ledger.b));
}

TEST(Fold, AJoinKeepsTheOlderLabelAndRemembersTheYounger) {
  Three ledger;
  ledger.fresh(ledger.b);
  ledger.say(person("R1"), LabelGiven{ledger.b, "Dash"});
  ledger.say(person("R1"), LabelGiven{ledger.a, "Dot"});
  const EntryId joined = ledger.same(ledger.c, ledger.a);
  ledger.same(ledger.c, ledger.b);
  // "new" of b stands against that; take it away so that they are one.
  for (const Entry& entry : std::vector<Entry>(ledger.entries))
    if (entry.kind == Verdict::kKind && entry.body.find("\"new\"") != std::string::npos)
      ledger.withdraw(entry.id);
  Identities who = ledger.fold();
  ASSERT_EQ(who.individuals.size(), 1u);
  EXPECT_EQ(who.individuals[0].label, "Dash");  // given first
  EXPECT_THAT(who.individuals[0].aliases, ElementsAre("Dot"));
  EXPECT_EQ(who.individual_named("Dot").id, who.individuals[0].id);
  ledger.withdraw(joined);  // split again: each has its own name back
  who = ledger.fold();
  EXPECT_EQ(who.individual_named("Dash").captures.front(), ledger.b);
}

TEST(Fold, ARenamedCaptureKeepsTheAgeOfItsFirstLabel) {
  Three ledger;
  ledger.say(person("R1"), LabelGiven{ledger.a, "Dott"});
  ledger.say(person("R1"), LabelGiven{ledger.c, "Comma"});
  ledger.say(person("R1"), LabelGiven{ledger.a, "Dot"});
  ledger.same(ledger.c, ledger.a);
  const Identities who = ledger.fold();
  EXPECT_EQ(who.individuals[0].label, "Dot");
  EXPECT_THAT(who.individuals[0].aliases, ElementsAre("Comma", "Dott"));
}

TEST(Fold, NamesThatSeveralBearAreToldApart) {
  Three ledger;
  ledger.fresh(ledger.b);
  ledger.say(person("R1"), LabelGiven{ledger.a, "Dot"});
  ledger.say(person("R1"), LabelGiven{ledger.b, "Dot"});
  const Identities who = ledger.fold();
  EXPECT_NE(who.individuals[0].name, who.individuals[1].name);
  EXPECT_THROW(who.individual_named("Dot"), Error);
  EXPECT_THROW(who.individual_named("nobody"), Error);
  EXPECT_EQ(who.individual_named(who.individuals[1].name).captures.front(), ledger.b);
}

TEST(Fold, ASheetTakenInTwiceIsOneCapture) {
  Three ledger;
  const CaptureId again = ledger.capture("2031-05-01", "a");
  const PhotoId photo(std::string(64, 'a'));
  ledger.say(person("OB1"), photo_of(photo, ledger.a, "IMG.jpg"));
  ledger.say(person("OB1"), photo_of(photo, again, "copy of IMG.jpg"));
  const Identities who = ledger.fold();
  EXPECT_EQ(who.captures.size(), 3u);
  EXPECT_THAT(who.capture(again)->twins, ElementsAre(again));
  EXPECT_EQ(who.capture(again), who.capture(ledger.a));
  EXPECT_EQ(who.capture(ledger.a)->photos.size(), 1u);
}

TEST(Fold, TheLatestExaminationSaysWhetherAPhotoIsUsable) {
  Three ledger;
  const PhotoId photo(std::string(64, 'a'));
  ledger.say(person("OB1"), photo_of(photo, ledger.a, "IMG.jpg", false));
  EXPECT_FALSE(ledger.fold().capture(ledger.a)->usable());
  Examination better;
  better.usable = true;
  ledger.say(program(), Reexamined{photo, better});
  EXPECT_TRUE(ledger.fold().capture(ledger.a)->usable());
}

TEST(Fold, CorrectionsMoveACaptureInTime) {
  Three ledger;
  ledger.same(ledger.c, ledger.a);
  ledger.say(person("OB1"),
             Correction{ledger.c, {{"night", "2030-05-01"}, {"svl_mm", nullptr}}, "wrong year"});
  const Identities who = ledger.fold();
  EXPECT_EQ(who.individuals[0].id.value, ledger.c.value);
  EXPECT_FALSE(who.capture(ledger.c)->facts.svl_mm);
}

TEST(Fold, AWithdrawnCaptureIsGoneAndSoIsWhatWasSaidOfIt) {
  HandLedger ledger;
  const CaptureId a = ledger.capture("2031-05-01", "a");
  ledger.withdraw(ledger.entries.back().id);
  ledger.fresh(a);
  EXPECT_THAT(ledger.fold().captures, IsEmpty());
  EXPECT_THAT(ledger.fold().individuals, IsEmpty());
}

TEST(Fold, AsItStood) {
  Three ledger;
  const EntryId joined = ledger.same(ledger.b, ledger.a);
  const std::string time = ledger.entries.back().time;
  ledger.withdraw(joined);
  EXPECT_FALSE(together(ledger.fold(), ledger.a, ledger.b));
  EXPECT_TRUE(together(fold(as_it_stood(ledger.statements(), time)), ledger.a, ledger.b));
  EXPECT_THAT(fold(as_it_stood(ledger.statements(), "2031-04-30")).captures, IsEmpty());
  EXPECT_EQ(fold(as_it_stood(ledger.statements(), "2031-05-01")).captures.size(), 3u);
  EXPECT_THROW(as_it_stood(ledger.statements(), "last Tuesday"), Error);
}

TEST(Fold, AClosedCaptureWaitsForNobody) {
  Three ledger;
  const EntryId closed = ledger.say(person("R1"), Closing{.capture = ledger.b, .as = ClosedAs::no_animal});
  const Identities who = ledger.fold();
  ASSERT_TRUE(who.capture(ledger.b)->closed);
  EXPECT_EQ(who.capture(ledger.b)->closed->as, ClosedAs::no_animal);
  EXPECT_EQ(who.capture(ledger.b)->closed->by, "R1");
  EXPECT_EQ(who.unsettled(), 1u);  // c
  EXPECT_EQ(who.individuals.size(), 1u);
  ledger.withdraw(closed);
  EXPECT_FALSE(ledger.fold().capture(ledger.b)->closed);
  EXPECT_EQ(ledger.fold().unsettled(), 2u);
}

TEST(Fold, OfSeveralClosingsTheNewestCounts) {
  Three ledger;
  ledger.say(person("R1"), Closing{.capture = ledger.b, .as = ClosedAs::no_animal});
  ledger.say(person("R2"), Closing{.capture = ledger.b, .as = ClosedAs::same_capture, .other = ledger.c});
  const auto closed = ledger.fold().capture(ledger.b)->closed;
  ASSERT_TRUE(closed);
  EXPECT_EQ(closed->as, ClosedAs::same_capture);
  EXPECT_EQ(closed->other, ledger.c);
}

TEST(Fold, APersonWhoSaysWhoItIsStandsBeforeAClosing) {
  for (const bool before : {false, true}) {
    Three ledger;
    if (before) ledger.same(ledger.b, ledger.a, "R2");
    ledger.say(person("R1"), Closing{.capture = ledger.b, .as = ClosedAs::not_identifiable});
    if (!before) ledger.same(ledger.b, ledger.a, "R2");
    EXPECT_FALSE(ledger.fold().capture(ledger.b)->closed);
    EXPECT_TRUE(together(ledger.fold(), ledger.a, ledger.b));
  }
}

TEST(Fold, AClosingStandsBeforeTheProgram) {
  Three ledger;
  const EntryId joined =
      ledger.say(program(), Verdict{.capture = ledger.b, .other = ledger.a, .answer = Answer::same});
  const EntryId onto =
      ledger.say(program(), Verdict{.capture = ledger.c, .other = ledger.b, .answer = Answer::same});
  EXPECT_TRUE(together(ledger.fold(), ledger.a, ledger.b));
  ledger.say(person("R1"), Closing{.capture = ledger.b, .as = ClosedAs::no_animal});
  const Identities who = ledger.fold();
  EXPECT_TRUE(who.capture(ledger.b)->closed);
  EXPECT_FALSE(who.capture(ledger.c)->individual);
  ASSERT_EQ(who.overridden.size(), 2u);
  EXPECT_EQ(who.overridden[0].verdict, joined);
  EXPECT_EQ(who.overridden[1].verdict, onto);
}

}  // namespace
}  // namespace evet
