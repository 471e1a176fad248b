#include "matcher/search/posterior.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "matcher/base/error.h"
#include "matcher/search/sheet_evidence.h"

namespace evet {
namespace {

TEST(Posterior, SumsToOneAndKeepsThePriorWhenNothingIsKnown) {
  const Posterior p = posterior({0, 0, 0, 0}, 0.3);
  EXPECT_NEAR(p.is_new, 0.7, 1e-12);
  EXPECT_NEAR(std::accumulate(p.individual.begin(), p.individual.end(), p.is_new), 1, 1e-12);
}

TEST(Posterior, IsBayesRule) {  // two animals, by hand
  const Posterior p = posterior({std::log(30.0), std::log(0.5)}, 0.5);
  const double sum = 0.25 * 30 + 0.25 * 0.5 + 0.5;
  EXPECT_NEAR(p.individual[0], 0.25 * 30 / sum, 1e-12);
  EXPECT_NEAR(p.is_new, 0.5 / sum, 1e-12);
}

// To know who it is not is to have learned something: the others and "new" keep their ratios.
TEST(Posterior, IsConditionedOnWhoIsRuledOut) {
  const std::vector<double> llrs{5, 2, -1, 0.5};
  const Posterior all = posterior(llrs, 0.4), rest = posterior({2, -1, 0.5}, 0.4, 1);
  const double left = 1 - all.individual[0];
  for (size_t i = 0; i < 3; ++i) EXPECT_NEAR(rest.individual[i], all.individual[i + 1] / left, 1e-12);
  EXPECT_NEAR(rest.is_new, all.is_new / left, 1e-12);
  EXPECT_EQ(posterior({}, 0.5, 2).is_new, 1);
}

TEST(Posterior, StandsHugeRatiosAndAnEmptyGallery) {
  const Posterior p = posterior({800, -800}, 0.5);
  EXPECT_NEAR(p.individual[0], 1, 1e-12);
  EXPECT_EQ(posterior({}, 0.5).is_new, 1);
}

TEST(Advise, FollowsTheCosts) {
  const SearchOptions costs;  // a wrong join 10, a look 0.05
  EXPECT_EQ(advise(0.999, 0.001, costs), Advice::same);
  EXPECT_EQ(advise(0.98, 0.02, costs), Advice::look);
  EXPECT_EQ(advise(0.01, 0.99, costs), Advice::new_individual);
  EXPECT_EQ(advise(0.3, 0.5, costs), Advice::look);
  SearchOptions free_join;
  free_join.wrong_join_over_missed = 1;
  EXPECT_EQ(advise(0.98, 0.02, free_join), Advice::same);
}

TEST(KeepBest, LeavesOutOnlyAThousandthAndSumsToOne) {
  RankedCapture ranked;
  for (int i = 0; i < 40; ++i) {
    Candidate c;
    c.individual = IndividualId("i" + std::to_string(i));
    c.probability = i < 20 ? 0.02 : 0.00001;
    ranked.candidates.push_back(c);
  }
  ranked.new_probability = 1 - 20 * 0.02 - 20 * 0.00001;
  keep_best(ranked, 10);
  EXPECT_EQ(ranked.candidates.size(), 20U);
  double sum = ranked.new_probability;
  for (const Candidate& c : ranked.candidates) sum += c.probability;
  EXPECT_NEAR(sum, 1, 1e-12);
  EXPECT_NEAR(ranked.new_probability, 0.5998, 0.0007);
}

TEST(SheetEvidence, SexWeighsSoftly) {
  SheetFacts f, m, unknown;
  f.sex = Sex::female, m.sex = Sex::male;
  EXPECT_GT(sheet_llr(f, f), 0);
  EXPECT_LT(sheet_llr(f, m), -1);
  EXPECT_GE(sheet_llr(f, m), -3);
  EXPECT_EQ(sheet_llr(f, unknown), 0);
}

TEST(SheetEvidence, OnlyShrinkingBeyondErrorCounts) {
  SheetFacts before, after;
  before.night = "2031-04-01", after.night = "2031-05-01";
  before.svl_mm = 70, after.svl_mm = 78;
  EXPECT_EQ(sheet_llr(after, before), 0);
  EXPECT_LT(sheet_llr(before, SheetFacts{.site = {}, .night = "2031-03-01", .stage = {}, .svl_mm = 90}),
            -2.9);
  after.svl_mm = 67;
  EXPECT_EQ(sheet_llr(after, before), 0);
  after.svl_mm = 58;
  EXPECT_LT(sheet_llr(after, before), -1);
  EXPECT_DOUBLE_EQ(sheet_llr(after, before), sheet_llr(before, after))
      << "which is the query does not matter";
}

TEST(SheetEvidence, AMetamorphsPatternIsTrustedLessOnAnotherNight) {
  SheetFacts young{.site = {}, .night = "2030-08-01", .stage = "metamorph", .svl_mm = {}},
      adult{.site = {}, .night = "2033-04-01", .stage = "adult", .svl_mm = {}};
  EXPECT_LT(pattern_trust(adult, young), 1);
  EXPECT_EQ(pattern_trust(adult, adult), 1);
  EXPECT_EQ(pattern_trust(young, young), 1);
  EXPECT_EQ(sheet_llr(adult, young), 0);
  adult.night = "2029-04-01";  // an adult that became a metamorph
  EXPECT_LT(sheet_llr(young, adult), -2.9);
}

}  // namespace
}  // namespace evet
