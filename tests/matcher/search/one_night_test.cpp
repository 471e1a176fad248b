#include "matcher/search/one_night.h"

#include <gtest/gtest.h>

#include <map>
#include <random>

#include "matcher/base/error.h"

namespace evet {
namespace {

RankedCapture capture(const std::string& id, const std::map<std::string, double>& candidates, double is_new) {
  RankedCapture out;
  out.capture = CaptureId(id);
  out.new_probability = is_new;
  for (const auto& [individual, p] : candidates) {
    Candidate candidate;
    candidate.individual = IndividualId(individual);
    candidate.probability = p;
    candidate.score = p;
    out.candidates.push_back(candidate);
  }
  return out;
}

double of(const RankedCapture& ranked, const std::string& individual) {
  for (const Candidate& candidate : ranked.candidates)
    if (candidate.individual.value == individual) return candidate.probability;
  return -1;
}

// Every way of giving captures to individuals or to "new", weighed one by one.
std::vector<std::map<std::string, double>> by_enumeration(const std::vector<RankedCapture>& night,
                                                          double twice) {
  std::vector<std::map<std::string, double>> marginals(night.size());
  std::vector<size_t> choice(night.size());
  double total = 0;
  for (;;) {
    double weight = 1;
    std::map<std::string, int> taken;
    for (size_t i = 0; i < night.size(); ++i) {
      if (choice[i] == night[i].candidates.size()) {
        weight *= night[i].new_probability;
        continue;
      }
      const Candidate& candidate = night[i].candidates[choice[i]];
      weight *= candidate.probability;
      if (++taken[candidate.individual.value] > 1) weight *= twice;
    }
    total += weight;
    for (size_t i = 0; i < night.size(); ++i)
      marginals[i][choice[i] == night[i].candidates.size()
                       ? "new"
                       : night[i].candidates[choice[i]].individual.value] += weight;
    size_t i = 0;
    while (i < night.size() && ++choice[i] > night[i].candidates.size()) choice[i++] = 0;
    if (i == night.size()) break;
  }
  for (auto& marginal : marginals)
    for (auto& [who, p] : marginal) p /= total;
  return marginals;
}

TEST(RankTogether, TwoCapturesThatWantTheSameAnimalAgreeWithEnumeration) {
  std::vector<RankedCapture> night = {capture("1", {{"A", 0.9}, {"B", 0.05}}, 0.05),
                                      capture("2", {{"A", 0.6}, {"C", 0.3}}, 0.1)};
  const auto exact = by_enumeration(night, 0.02);
  rank_together(night);
  for (size_t i = 0; i < night.size(); ++i) {
    EXPECT_NEAR(night[i].new_probability, exact[i].at("new"), 1e-6);
    for (const Candidate& candidate : night[i].candidates)
      EXPECT_NEAR(candidate.probability, exact[i].at(candidate.individual.value), 1e-6);
  }
  EXPECT_GT(of(night[0], "A"), 0.7);  // the stronger claim stands,
  EXPECT_LT(of(night[1], "A"), 0.2);  // the weaker gives way
  EXPECT_EQ(night[1].candidates[0].individual.value, "C");
}

TEST(RankTogether, StaysNearEnumerationWhereManyCompete) {
  std::mt19937 rng(3);
  std::uniform_real_distribution<> draw(0.01, 1);
  double worst = 0;
  for (int trial = 0; trial < 50; ++trial) {
    std::vector<RankedCapture> night;
    for (int i = 0; i < 4; ++i) {
      std::map<std::string, double> weights;
      double is_new = draw(rng), sum = is_new;
      for (const char* who : {"A", "B", "C", "D"}) sum += weights[who] = std::pow(draw(rng), 3);
      for (auto& [who, p] : weights) p /= sum;
      night.push_back(capture(std::to_string(i), weights, is_new / sum));
    }
    const auto exact = by_enumeration(night, 0.02);
    rank_together(night);
    for (size_t i = 0; i < night.size(); ++i) {
      double sum = night[i].new_probability;
      for (const Candidate& candidate : night[i].candidates) {
        sum += candidate.probability;
        worst = std::max(worst, std::abs(candidate.probability - exact[i].at(candidate.individual.value)));
      }
      EXPECT_NEAR(sum, 1, 1e-9);
    }
  }
  EXPECT_LT(worst, 0.08);
}

TEST(RankTogether, LeavesCapturesThatShareNobodyAlone) {
  std::vector<RankedCapture> night = {capture("1", {{"A", 0.9}}, 0.1), capture("2", {{"B", 0.4}}, 0.6),
                                      capture("3", {}, 1)};
  rank_together(night);
  EXPECT_NEAR(of(night[0], "A"), 0.9, 1e-12);
  EXPECT_NEAR(of(night[1], "B"), 0.4, 1e-12);
  EXPECT_NEAR(night[2].new_probability, 1, 1e-12);
  EXPECT_EQ(night[2].advice, Advice::new_individual);
}

TEST(RankTogether, TwoLikelyClaimsOnOneAnimalGoToAPersonTwoSureOnesAreATwiceCaughtAnimal) {
  std::vector<RankedCapture> likely = {capture("1", {{"A", 0.9}}, 0.1), capture("2", {{"A", 0.9}}, 0.1)};
  rank_together(likely);
  for (const RankedCapture& ranked : likely) EXPECT_EQ(ranked.advice, Advice::look);
  std::vector<RankedCapture> sure = {capture("1", {{"A", 0.99999}}, 1e-5),
                                     capture("2", {{"A", 0.99999}}, 1e-5)};
  rank_together(sure);
  for (const RankedCapture& ranked : sure) EXPECT_EQ(ranked.advice, Advice::same);
  EXPECT_THROW(rank_together(sure, {}, {.twice_in_a_night = -1}), Error);
}

}  // namespace
}  // namespace evet
