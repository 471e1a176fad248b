#include "matcher/catalogue/agreement.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/matcher/catalogue/hand_ledger.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Pair;

Agreement of(const HandLedger& ledger) {
  return agreement(ledger.statements(), ledger.fold());
}

// Two animals known by their tags, and captures to be judged against them.
struct Tagged : HandLedger {
  CaptureId a = capture("2031-05-01", "a", "TAG-A"), b = capture("2031-05-01", "b", "TAG-B");
  CaptureId caught() { return capture("2031-05-10", "x"); }
  EntryId blind(const std::string& reader, const CaptureId& one, Answer answer, const CaptureId& other = {}) {
    return say(person(reader), Verdict{.capture = one, .other = other, .answer = answer, .blind = true});
  }
  EntryId planted(const std::string& reader, const CaptureId& one, Answer answer,
                  const CaptureId& other = {}) {
    return say(person(reader), Verdict{.capture = one, .other = other, .answer = answer, .planted = true});
  }
};

TEST(Agreement, CountsPairsThatTwoReadersJudged) {
  Tagged ledger;
  for (int i = 0; i < 4; ++i) {
    const CaptureId x = ledger.caught();
    ledger.verdict("R1", x, Answer::same, ledger.a);
    if (i > 0) ledger.blind("R2", x, i == 3 ? Answer::cannot_tell : Answer::same, ledger.a);
  }
  const CaptureId y = ledger.caught();
  ledger.verdict("R1", y, Answer::different, ledger.b);
  ledger.blind("R2", ledger.b, Answer::different, y);  // the other way round is the same case
  const Agreement out = of(ledger);
  ASSERT_EQ(out.cases.size(), 4u);
  ASSERT_EQ(out.pairs.size(), 1u);
  EXPECT_EQ(out.pairs[0].first, "R1");
  EXPECT_EQ(out.pairs[0].table, (std::vector<std::vector<int>>{{2, 0, 1}, {0, 1, 0}, {0, 0, 0}}));
  EXPECT_EQ(out.pairs[0].cases, 4);
  ASSERT_TRUE(out.pairs[0].kappa);
  EXPECT_NEAR(out.pairs[0].kappa->observed, 0.75, 1e-12);
  EXPECT_NEAR(out.all->observed, 0.75, 1e-12);
  EXPECT_THAT(out.errors, IsEmpty());
}

TEST(Agreement, TakesNewForDifferentFromAllWhoHadBeenPlaced) {
  Tagged ledger;
  const CaptureId x = ledger.caught();
  ledger.verdict("R1", x, Answer::same, ledger.a);
  ledger.blind("R2", x, Answer::new_individual);
  Agreement out = of(ledger);
  ASSERT_EQ(out.cases.size(), 1u);
  EXPECT_THAT(out.cases[0].answers,
              ElementsAre(Pair("R1", CaseAnswer::same), Pair("R2", CaseAnswer::different)));
  EXPECT_FALSE(out.cases[0].agreed());
}

TEST(Agreement, DoesNotHoldNewAgainstCapturesThatCameLater) {
  Tagged ledger;
  const CaptureId x = ledger.caught();
  ledger.verdict("R1", x, Answer::new_individual);
  const CaptureId later = ledger.caught();
  ledger.blind("R2", later, Answer::same, x);
  EXPECT_THAT(of(ledger).cases, IsEmpty());
}

TEST(Agreement, SeesThatTwoReadersPickedDifferentIndividuals) {
  Tagged ledger;
  const CaptureId x = ledger.caught();
  ledger.verdict("R1", x, Answer::same, ledger.a);
  ledger.blind("R2", x, Answer::same, ledger.b);
  const Agreement out = of(ledger);
  ASSERT_EQ(out.cases.size(), 2u);
  for (const JudgedCase& one : out.cases) EXPECT_FALSE(one.agreed());
}

TEST(Agreement, CountsFirstAnswersAndOnlyIndependentOnes) {
  Tagged ledger;
  const CaptureId x = ledger.caught();
  ledger.verdict("R1", x, Answer::different, ledger.a);
  ledger.verdict("R3", x, Answer::different, ledger.a);  // in sight of R1's
  ledger.blind("R2", x, Answer::same, ledger.a);
  ledger.verdict("R1", x, Answer::same, ledger.a);  // after a talk
  const Agreement out = of(ledger);
  ASSERT_EQ(out.cases.size(), 1u);
  EXPECT_THAT(out.cases[0].answers,
              ElementsAre(Pair("R1", CaseAnswer::different), Pair("R2", CaseAnswer::same)));
  EXPECT_EQ(out.not_independent, 1);
}

TEST(Agreement, ForgetsSlipsButNotSettledDisagreement) {
  Tagged ledger;
  const CaptureId x = ledger.caught();
  const EntryId slip = ledger.verdict("R1", x, Answer::different, ledger.a);
  ledger.withdraw(slip);
  const EntryId first = ledger.verdict("R1", x, Answer::same, ledger.a);
  const EntryId second = ledger.blind("R2", x, Answer::different, ledger.a);
  ledger.say(person("R9"),
             Verdict{.capture = x, .other = ledger.a, .answer = Answer::same, .settles = {first, second}});
  const Agreement out = of(ledger);
  ASSERT_EQ(out.cases.size(), 1u);
  EXPECT_THAT(out.cases[0].answers,
              ElementsAre(Pair("R1", CaseAnswer::same), Pair("R2", CaseAnswer::different)));
}

TEST(Agreement, LeavesTheProgramOut) {
  Tagged ledger;
  const CaptureId x = ledger.caught();
  ledger.say(program(), Verdict{.capture = x, .other = ledger.a, .answer = Answer::same});
  ledger.blind("R1", x, Answer::same, ledger.a);
  EXPECT_THAT(of(ledger).cases, IsEmpty());
}

TEST(Agreement, MeasuresReadersByPlantedCases) {
  Tagged ledger;
  const CaptureId a2 = ledger.capture("2031-05-03", "a2", "TAG-A"),
                  b2 = ledger.capture("2031-05-03", "b2", "TAG-B");
  const CaptureId alone = ledger.capture("2031-05-03", "c", "TAG-C"), open = ledger.caught();
  ledger.planted("R1", a2, Answer::same, ledger.a);       // right
  ledger.planted("R1", b2, Answer::different, ledger.b);  // missed
  ledger.planted("R1", a2, Answer::new_individual);       // missed
  ledger.planted("R1", alone, Answer::new_individual);    // right
  ledger.planted("R1", alone, Answer::same, ledger.a);    // a false match
  ledger.planted("R1", a2, Answer::different, ledger.b);  // right
  ledger.planted("R1", b2, Answer::cannot_tell, ledger.b);
  ledger.planted("R1", open, Answer::same, ledger.a);  // nobody knows
  ledger.planted("R2", a2, Answer::same, ledger.a);
  const Agreement out = of(ledger);
  ASSERT_EQ(out.errors.size(), 2u);
  EXPECT_EQ(out.errors[0].reader, "R1");
  EXPECT_EQ(out.errors[0].false_match.errors, 1);
  EXPECT_EQ(out.errors[0].false_match.trials, 3);
  EXPECT_EQ(out.errors[0].false_non_match.errors, 2);
  EXPECT_EQ(out.errors[0].false_non_match.trials, 3);
  EXPECT_EQ(out.errors[0].cannot_tell, 1);
  EXPECT_EQ(out.errors[0].unknown_truth, 1);
  EXPECT_EQ(out.errors[1].false_match.trials, 0);
  EXPECT_FALSE(out.errors[1].false_match.rate);
  EXPECT_EQ(out.errors[1].false_non_match.rate, 0.0);
  // And the planted answers moved nobody.
  EXPECT_EQ(ledger.fold().individuals.size(), 3u);
  EXPECT_THAT(ledger.fold().disputes, IsEmpty());
}

}  // namespace
}  // namespace evet
