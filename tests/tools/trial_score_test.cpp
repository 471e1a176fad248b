#include "tools/evet/trial_score.h"

#include <gtest/gtest.h>

#include "tools/evet/trial_text.h"

namespace evet::trial {
namespace {

Search mated(const std::string& individual, int rank, double mate_odds, double best_odds) {
  Search s;
  s.individual = individual, s.mated = true, s.mate_rank = rank, s.mate_odds = mate_odds,
  s.best_odds = best_odds;
  return s;
}
Search non_mated(const std::string& individual, double best_odds) {
  Search s;
  s.individual = individual, s.best_odds = best_odds;
  return s;
}

// Ten animals; one mate is second, one is found but weakly; of ten impostors one is strong.
Trial ten() {
  Trial trial;
  for (int i = 0; i < 10; ++i) {
    const std::string name = "animal " + std::to_string(i);
    trial.searches.push_back(i == 0   ? mated(name, 2, -3, 1)
                             : i == 1 ? mated(name, 1, -1, -1)
                                      : mated(name, 1, 4 + i, 4 + i));
    trial.searches.push_back(non_mated(name, i == 5 ? 2 : -5 - 0.1 * i));
  }
  return trial;
}

TEST(TrialScore, CountsByRank) {
  const Scores s = score(ten());
  EXPECT_EQ(s.rank1.count, 9);
  EXPECT_EQ(s.rank1.of, 10);
  EXPECT_EQ(s.cmc[1].count, 10);
}

TEST(TrialScore, SetsTheThresholdByTheNonMatedSearches) {
  ScoreOptions options;
  options.allowed_fpir = {0.1, 0.01};
  const Scores s = score(ten(), options);
  // One in ten may be over: the strong impostor is, so the threshold lies just above the next one, -5.
  EXPECT_TRUE(s.points[0].measurable);
  EXPECT_EQ(s.points[0].fpir.count, 1);
  EXPECT_EQ(s.points[0].fnir.count, 0);
  // None may be over: above the strong impostor, and two mates are missed.
  EXPECT_FALSE(s.points[1].measurable);
  EXPECT_EQ(s.points[1].fpir.count, 0);
  EXPECT_EQ(s.points[1].fnir.count, 2);
}

TEST(TrialScore, DetCurveFallsFromNoFalsePositiveToAll) {
  const std::vector<DetPoint> det = score(ten()).det;
  ASSERT_GE(det.size(), 2U);
  EXPECT_EQ(det.front().fpir, 0);
  EXPECT_NEAR(det.front().fnir, 0.2, 1e-12);
  for (size_t i = 1; i < det.size(); ++i) EXPECT_LT(det[i].fnir, det[i - 1].fnir);
}

TEST(TrialScore, CountsFailuresToAcquireAndNeverDropsThem) {
  Trial trial = ten();
  trial.searches[4].acquired = false, trial.searches[5].acquired = false;  // animal 2, both searches
  const Scores s = score(trial);
  EXPECT_EQ(s.failure_to_acquire.count, 1);
  EXPECT_EQ(s.failure_to_acquire.of, 10);
  EXPECT_EQ(s.rank1.of, 9);
  EXPECT_EQ(s.rank1_of_all.of, 10);
  EXPECT_EQ(s.rank1_of_all.count, 8);
}

// The rule of three: no error among ten animals bounds the rate at 3/10.
TEST(TrialScore, BoundsARateWithoutErrorsByTheRuleOfThree) {
  Trial trial;
  for (int i = 0; i < 10; ++i) trial.searches.push_back(mated(std::to_string(i), 1, 5, 5));
  const Scores s = score(trial);
  EXPECT_EQ(s.failure_to_acquire.count, 0);
  EXPECT_NEAR(s.failure_to_acquire.high, 0.3, 1e-12);
  EXPECT_NEAR(s.rank1.low, 0.7, 1e-12);
}

// Ten searches of one animal are no better evidence than one: resampling animals whole must say so.
TEST(TrialScore, IntervalsAreByIndividualNotBySearch) {
  Trial many, few;
  for (int animal = 0; animal < 20; ++animal)
    for (int copy = 0; copy < 10; ++copy) {
      const Search s = mated(std::to_string(animal), animal < 4 ? 2 : 1, 1, 1);
      many.searches.push_back(s);
      if (copy == 0) few.searches.push_back(s);
    }
  const Rate a = score(many).rank1, b = score(few).rank1;
  EXPECT_EQ(a.value, b.value);
  EXPECT_NEAR(a.low, b.low, 1e-12);
  EXPECT_NEAR(a.high, b.high, 1e-12);
}

TEST(TrialScore, SaysWhenARateCannotBeMeasured) {
  const Trial trial = ten();
  const std::string text = markdown(trial, score(trial));
  EXPECT_NE(text.find("a rate of 0.1 % needs 1000"), std::string::npos);
}

TEST(TrialScore, OfNothingIsNotMeasured) {
  const Trial trial;
  const Scores s = score(trial);
  EXPECT_EQ(s.rank1.of, 0);
  EXPECT_NE(markdown(trial, s).find("not measured"), std::string::npos);
}

}  // namespace
}  // namespace evet::trial
