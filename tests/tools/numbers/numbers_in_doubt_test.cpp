#include "tools/numbers/numbers_in_doubt.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "models/base/random.h"
#include "tests/matcher/catalogue/hand_ledger.h"

namespace evet {
namespace {

using namespace try_out;

Shown shown_as(const CaptureId& capture, double probability) {
  Shown shown;
  shown.capture = capture, shown.probability = probability;
  return shown;
}

const char* const kNights[] = {"2031-05-01", "2031-05-04", "2031-05-08", "2031-05-12"};

// Nights at a closed pond whose animals are known, and a program that is as sure as it is right: of the joins
// that it accepts with `p`, a share of 1 - p are animals never seen before.
struct Pond : HandLedger {
  std::vector<Doubt> doubts;

  Pond(int animals, double p_catch, double p, models::Random& random) {
    struct Catch {
      CaptureId id;
      int animal = 0, night = 0;
      bool first = false;
    };
    std::vector<Catch> caught;
    std::set<int> seen;
    for (int night = 0; night < 4; ++night)
      for (int animal = 0; animal < animals; ++animal)
        if (random.chance(p_catch))
          caught.push_back({capture(kNights[night], "c" + std::to_string(caught.size())), animal, night,
                            seen.insert(animal).second});
    int again = 0, later = 0;
    for (const Catch& one : caught) again += one.first ? 0 : 1, later += one.first && one.night > 0 ? 1 : 0;
    const double false_join = later > 0 ? again * (1 - p) / p / later : 0;
    std::vector<CaptureId> first_of(static_cast<std::size_t>(animals));
    std::vector<CaptureId> founders;  // of earlier nights
    std::vector<CaptureId> tonight;
    for (std::size_t i = 0; i < caught.size(); ++i) {
      const Catch& one = caught[i];
      if (i > 0 && caught[i - 1].night != one.night) {
        founders.insert(founders.end(), tonight.begin(), tonight.end());
        tonight.clear();
      }
      CaptureId& first = first_of[static_cast<std::size_t>(one.animal)];
      const bool wrong = one.first && !founders.empty() && random.chance(false_join);
      if (one.first) first = one.id;
      if (one.first && !wrong) {
        fresh(one.id);
        tonight.push_back(one.id);
        continue;
      }
      const CaptureId other = wrong ? founders[random.below(founders.size())] : first;
      Verdict verdict{.capture = one.id, .other = other, .answer = Answer::same};
      verdict.evidence.maker = "test", verdict.evidence.new_probability = 1 - p;
      verdict.evidence.shown = {shown_as(other, p)};
      doubts.push_back({one.id, say(program(), verdict), verdict.evidence});
    }
  }
};

const models::BothFigures& row_of(const models::EstimateInDoubt& numbers, const std::string& model) {
  for (const models::BothFigures& row : numbers.rows)
    if (row.model == model) return row;
  throw std::runtime_error("no row " + model + ": " + models::words(numbers.why));
}

TEST(NumbersInDoubt, CarryTheDoubtThatTheProgramHas) {
  models::Random random(11);
  const int animals = 60, studies = 20;
  double certain_bias = 0, doubt_bias = 0;
  int certain_covered = 0, doubt_covered = 0;
  const auto covers = [&](const models::Estimate& one) {
    return one.intervals[0].lower <= animals && animals <= one.intervals[0].upper ? 1 : 0;
  };
  for (int study = 0; study < studies; ++study) {
    const Pond pond(animals, 0.4, 0.8, random);
    const models::EstimateInDoubt numbers =
        numbers_of(pond.statements(), pond.fold(), pond.doubts, {}, {.plots = false});
    const models::BothFigures& row = row_of(numbers, "constant");  // the model that is true here
    certain_bias += std::log(row.certain.value / animals) / studies;
    doubt_bias += std::log(row.in_doubt.value / animals) / studies;
    certain_covered += covers(row.certain), doubt_covered += covers(row.in_doubt);
    EXPECT_EQ(numbers.rows.front().model, "") << "the answer to quote comes first";
    EXPECT_THAT(models::words(numbers.why), testing::HasSubstr("drawn 20 times"));
  }
  std::printf("bias of the logarithm: certain %.3f, in doubt %.3f; of %d intervals hold %d and %d\n",
              certain_bias, doubt_bias, studies, certain_covered, doubt_covered);
  EXPECT_LT(certain_bias, -0.2) << "animals wrongly joined are animals not counted";
  EXPECT_LT(std::abs(doubt_bias), 0.05);
  EXPECT_LT(certain_covered, studies / 2);
  EXPECT_GE(doubt_covered, studies * 9 / 10);
}

TEST(NumbersInDoubt, AreTheSameWhereTheProgramHasNone) {
  models::Random random(12);
  const Pond pond(40, 0.4, 1, random);
  const models::EstimateInDoubt numbers =
      numbers_of(pond.statements(), pond.fold(), pond.doubts, {}, {.plots = false});
  ASSERT_GT(numbers.rows.size(), 4u);
  for (const models::BothFigures& row : numbers.rows) {
    if (!std::isfinite(row.certain.standard_error)) continue;
    EXPECT_NEAR(row.in_doubt.value, row.certain.value, 1e-6 * row.certain.value) << row.model;
    EXPECT_NEAR(row.in_doubt.standard_error, row.certain.standard_error, 1e-6 * row.certain.value);
  }
  const models::EstimateInDoubt without =
      numbers_of(pond.statements(), pond.fold(), {}, {}, {.plots = false});
  EXPECT_TRUE(without.rows.empty());
  EXPECT_THAT(models::words(without.why), testing::HasSubstr("rests on the program alone"));
}

TEST(NumbersInDoubt, TakeInUnsettledCapturesByTheirRanking) {
  HandLedger ledger;
  const CaptureId a = ledger.capture("2031-05-01", "a"), b = ledger.capture("2031-05-04", "b");
  ledger.fresh(a);
  Evidence evidence;
  evidence.shown = {shown_as(a, 0.75)};
  evidence.new_probability = 0.25;
  std::mt19937_64 random(3);
  int joined = 0;
  for (int i = 0; i < 1000; ++i) {
    const Identities who = fold(drawn(ledger.statements(), {{.capture = b, .evidence = evidence}}, random));
    ASSERT_TRUE(who.capture(b)->individual);
    joined += who.individuals.size() == 1 ? 1 : 0;
  }
  EXPECT_NEAR(joined, 750, 50);  // 3.7 standard deviations
}

TEST(NumbersInDoubt, TwoCapturesOfOneNewAnimalAreDrawnAsOne) {
  HandLedger ledger;
  const CaptureId a = ledger.capture("2031-05-01", "a"), b = ledger.capture("2031-05-04", "b"),
                  c = ledger.capture("2031-05-04", "c");
  ledger.fresh(a);
  Evidence evidence;
  evidence.shown = {shown_as(a, 0.1)};
  evidence.new_probability = 0.9;
  const std::vector<Doubt> doubts = {{.capture = b, .evidence = evidence, .night_matches = {{c, 0.6}}},
                                     {.capture = c, .evidence = evidence, .night_matches = {{b, 0.6}}}};
  std::mt19937_64 random(4);
  int one_new = 0;
  for (int i = 0; i < 1000; ++i) {
    const Identities who = fold(drawn(ledger.statements(), doubts, random));
    const auto &of_a = who.capture(a)->individual, &of_b = who.capture(b)->individual,
               &of_c = who.capture(c)->individual;
    ASSERT_TRUE(of_a && of_b && of_c);
    one_new += *of_b == *of_c && *of_b != *of_a ? 1 : 0;
  }
  EXPECT_NEAR(one_new, 600, 60);  // 3.9 standard deviations
}

TEST(NumbersInDoubt, ANightThatIsNotSettledTakesPartAndCountsAsNoZero) {
  // Twelve animals on four nights; who was caught on the third is known to the program
  // alone, and not settled.
  HandLedger ledger;
  std::vector<Doubt> doubts;
  std::vector<CaptureId> first;
  for (int i = 0; i < 12; ++i) {
    first.push_back(ledger.capture(kNights[0], "a" + std::to_string(i)));
    ledger.fresh(first.back());
  }
  for (int i = 0; i < 8; ++i)
    ledger.same(ledger.capture(kNights[1], "b" + std::to_string(i)), first[static_cast<std::size_t>(i)]);
  for (int i = 0; i < 9; ++i) {
    const CaptureId open = ledger.capture(kNights[2], "c" + std::to_string(i));
    ledger.say(person("OB1"),
               photo_of(PhotoId(std::to_string(10 + i) + std::string(62, '0')), open, "c.jpg", true));
    Evidence evidence;
    evidence.maker = "test", evidence.new_probability = 0.05;
    evidence.shown = {shown_as(first[static_cast<std::size_t>(i)], 0.95)};
    doubts.push_back({.capture = open, .evidence = evidence});
  }
  for (int i = 2; i < 10; ++i)
    ledger.same(ledger.capture(kNights[3], "d" + std::to_string(i)), first[static_cast<std::size_t>(i)]);
  const Statements said = ledger.statements();
  const CatalogueHistories made = capture_histories(said, ledger.fold(), {});
  EXPECT_THAT(made.report.open_nights, testing::ElementsAre(kNights[2]));
  EXPECT_EQ(first_open_night(ledger.fold(), {}), kNights[2]);
  const models::EstimateInDoubt numbers = numbers_of(said, ledger.fold(), doubts, {}, {.plots = false});
  EXPECT_EQ(numbers.report.stopped_before, kNights[2]);
  EXPECT_EQ(numbers.report.occasions, 2);
  ASSERT_FALSE(numbers.rows.empty());
  EXPECT_GT(numbers.rows.front().in_doubt.value, 11.9);
  EXPECT_LT(numbers.rows.front().in_doubt.value, 14.5);
  EXPECT_THAT(numbers.differ.words(), testing::HasSubstr(kNights[2]));
}

TEST(NumbersInDoubt, LetStandWhatPeopleSaid) {
  HandLedger ledger;
  const CaptureId a = ledger.capture("2031-05-01", "a"), b = ledger.capture("2031-05-04", "b");
  ledger.fresh(a);
  ledger.different(b, a);
  Evidence evidence;
  evidence.shown = {shown_as(a, 1)};
  evidence.new_probability = 0;
  std::mt19937_64 random(3);
  const Identities who = fold(drawn(ledger.statements(), {{.capture = b, .evidence = evidence}}, random));
  EXPECT_EQ(who.individuals.size(), 1u);
  EXPECT_TRUE(who.disputes.empty()) << "a draw disputes nobody's word";
}

}  // namespace
}  // namespace evet
