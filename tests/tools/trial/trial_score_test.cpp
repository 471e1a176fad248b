#include "tools/trial/trial_score.h"

#include <gtest/gtest.h>

#include <fstream>
#include <limits>
#include <nlohmann/json.hpp>

#include "tools/trial/trial_groups.h"
#include "tools/trial/trial_text.h"

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
  for (int i = 0; i < 10; ++i) {
    trial.searches.push_back(mated(std::to_string(i), 1, 5, 5));
    trial.searches.push_back(non_mated(std::to_string(i), -5));
  }
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

nlohmann::json check_values(const std::string& id) {
  std::ifstream input(EVET_TEST_DATA "/checkvalues/09_matching_and_agreement.json");
  const nlohmann::json all = nlohmann::json::parse(input);
  for (const auto& entry : all.at("entries"))
    if (entry.at("id") == id) return entry;
  ADD_FAILURE() << id;
  return {};
}

// match.cmc: constructed and hand-checked, in the terms of ISO/IEC 19795-1.
TEST(TrialScore, CumulativeMatchesAgreeWithCheckValues) {
  const nlohmann::json entry = check_values("match.cmc");
  Trial trial;
  int n = 0;
  for (const int rank : entry.at("data").at("rank_of_true_entry"))
    trial.searches.push_back(mated(std::to_string(n++), rank, 0, 0));
  const Scores s = score(trial);
  const auto& expected = entry.at("expected").at("cmc_1_to_15").at("value");
  for (size_t k = 0; k < s.cmc.size(); ++k) EXPECT_NEAR(s.cmc[k].value, expected[k].get<double>(), 1e-9) << k;
  // The bootstrap's interval against the exact one by Clopper and Pearson: percentiles run a little narrower.
  const auto& exact = entry.at("expected").at("rank1_clopper_pearson95").at("value");
  EXPECT_NEAR(s.rank1.low, exact[0].get<double>(), 0.08);
  EXPECT_NEAR(s.rank1.high, exact[1].get<double>(), 0.08);
}

// match.open_set: FNIR and FPIR at given thresholds, for candidate lists of one and of three.
TEST(TrialScore, OpenSetErrorRatesAgreeWithCheckValues) {
  const nlohmann::json entry = check_values("match.open_set");
  const auto &data = entry.at("data"), &expected = entry.at("expected");
  for (const int listed : {1, 3}) {
    Trial trial;
    int n = 0;
    for (const double top : data.at("non_mated_top_score"))
      trial.searches.push_back(non_mated(std::to_string(n++), top));
    for (size_t i = 0; i < 10; ++i) {
      const int rank = data.at("mated").at("rank_of_true_entry")[i];
      Search s = mated(std::to_string(i), rank, data.at("mated").at("score_of_true_entry")[i], 100);
      if (rank > listed) s.mate_rank = 0, s.mate_odds = -std::numeric_limits<double>::infinity();
      trial.searches.push_back(s);
    }
    for (Search& s : trial.searches) s.groups = {{"set", "all"}};
    const auto& thresholds = data.at("thresholds");
    for (size_t k = 0; k < thresholds.size(); ++k) {
      OperatingPoint point;
      point.odds = thresholds[k];
      const GroupScore all = by_group(trial, point, {}).at(0).groups.at(0);
      EXPECT_NEAR(all.fpir.value, expected.at("FPIR").at("value")[k].get<double>(), 1e-9);
      EXPECT_NEAR(all.fnir.value,
                  expected.at(listed == 1 ? "FNIR_rank1" : "FNIR_rank3").at("value")[k].get<double>(), 1e-9)
          << listed << " " << thresholds[k];
    }
  }
}

TEST(TrialGroups, AreCountedApartAndSmallOnesSaySo) {
  Trial trial;
  for (int i = 0; i < 40; ++i) {
    Search m = mated(std::to_string(i), i == 0 ? 2 : 1, 3, 3), n = non_mated(std::to_string(i), -3);
    m.groups = n.groups = {{"site", i < 35 ? "Alder Pool" : "Sallow Pond"}};
    m.groups["years apart"] = i % 2 ? "1 year" : "same year";
    trial.searches.push_back(m), trial.searches.push_back(n);
  }
  const std::vector<Grouping> groups = by_group(trial, score(trial).points.front(), {});
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(groups[0].by, "site");
  EXPECT_EQ(groups[0].groups[0].individuals, 35U);
  EXPECT_EQ(groups[0].groups[0].rank1.count, 34);
  EXPECT_FALSE(groups[0].groups[0].few);
  EXPECT_TRUE(groups[0].groups[1].few);
  EXPECT_TRUE(groups[1].mated_only);
}

// Only captures that were searched both ways speak of reliability and advice: else newcomers, of which a
// catalogue has many, would outweigh what the prior says.
TEST(TrialScore, AdviceIsScoredOnCapturesSearchedBothWays) {
  Trial trial = ten();
  for (int i = 0; i < 50; ++i) trial.searches.push_back(non_mated("once " + std::to_string(i), -9));
  const Scores s = score(trial);
  EXPECT_EQ(s.look.given.of, 20);
  EXPECT_EQ(s.non_mated, 60);
}

TEST(TrialScore, TheIntervalOfAMissRateHasTheThresholdsOwnDoubtInIt) {
  Trial trial;
  for (int i = 0; i < 100; ++i) {
    trial.searches.push_back(mated(std::to_string(i), 1, 0.1 * i, 0.1 * i));
    trial.searches.push_back(non_mated(std::to_string(i), -10 + 0.12 * i));
  }
  ScoreOptions options;
  options.allowed_fpir = {0.05};
  const Scores s = score(trial, options);
  const Rate fnir = s.points[0].fnir;
  const Rate fixed = rate(
      trial.searches, options, [](const Search& one) { return one.mated; },
      [&](const Search& one) { return one.mate_odds < s.points[0].odds; });
  EXPECT_LE(fnir.low, fixed.low);
  EXPECT_GE(fnir.high, fixed.high);
  EXPECT_LT(fnir.low, fnir.value);
  EXPECT_GT(fnir.high, fnir.value);
  for (const DetPoint& p : s.det) {
    EXPECT_LE(p.low, p.fnir + 1e-12);
    EXPECT_GE(p.high, p.fnir - 1e-12);
  }
}

TEST(TrialScore, OfNothingIsNotMeasured) {
  const Trial trial;
  const Scores s = score(trial);
  EXPECT_EQ(s.rank1.of, 0);
  EXPECT_NE(markdown(trial, s).find("not measured"), std::string::npos);
}

}  // namespace
}  // namespace evet::trial
