#include "matcher/catalogue/drawn_identities.h"

#include <gtest/gtest.h>

#include <map>

#include "tests/matcher/catalogue/hand_ledger.h"

namespace evet {
namespace {

using namespace try_out;

Shown shown_as(const CaptureId& capture, double probability) {
  Shown shown;
  shown.capture = capture, shown.probability = probability;
  return shown;
}

// What the program kept as evidence may be older than a person's word.
TEST(DrawnIdentities, NoDrawJoinsWhatAPersonSaidIsDifferent) {
  HandLedger ledger;
  const CaptureId a = ledger.capture("2031-05-01", "a"), b = ledger.capture("2031-05-01", "b"),
                  d = ledger.capture("2031-05-03", "d");
  ledger.fresh(a), ledger.fresh(b);
  Verdict verdict{.capture = d, .other = b, .answer = Answer::same};
  verdict.evidence.new_probability = 0.2, verdict.evidence.shown = {shown_as(b, 0.4), shown_as(a, 0.4)};
  const EntryId said = ledger.say(program(), verdict);
  // Of 600 draws, how many joined d to each.
  const auto joined = [&] {
    const Statements statements = ledger.statements();
    std::vector<Doubt> doubts{{d, said, verdict.evidence}};
    bind_to(doubts, statements, fold(statements));
    std::mt19937_64 random(3);
    std::map<IndividualId, int> count;
    for (int i = 0; i < 600; ++i)
      ++count[fold(drawn(statements, doubts, random)).capture(d)->individual.value_or(IndividualId())];
    return count;
  };
  const IndividualId of_a(a.value), of_b(b.value), of_d(d.value);
  std::map<IndividualId, int> before = joined();
  EXPECT_NEAR(before[of_a], 240, 60);
  EXPECT_NEAR(before[of_b], 240, 60);
  ledger.different(d, a);
  std::map<IndividualId, int> after = joined();
  EXPECT_EQ(after[of_a], 0);
  EXPECT_NEAR(after[of_b], 400, 60) << "0.4 against 0.2";
  EXPECT_EQ(after[of_b] + after[of_d], 600);
}

}  // namespace
}  // namespace evet
