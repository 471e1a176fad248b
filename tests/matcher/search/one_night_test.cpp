#include "matcher/search/one_night.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
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
  OneNightOptions nonsense;
  nonsense.twice_in_a_night = -1;
  EXPECT_THROW(rank_together(sure, {}, nonsense), Error);
}

// A night by plain enumeration, with new animals that several captures may show: its own words for what
// night_joint.h says, to hold the fast way to. Whole assignments with their weights, and what follows.
struct Assignment {
  std::vector<std::string>
      who;  // of each capture: an individual, "new", or "=2": the new animal of capture 2
  double weight = 0;
};

std::vector<Assignment> all_assignments(const std::vector<RankedCapture>& night,
                                        const std::vector<NightPair>& pairs, const OneNightOptions& options) {
  std::vector<Assignment> out = {{{}, 1}};
  for (size_t j = 0; j < night.size(); ++j) {
    std::vector<Assignment> longer;
    for (const Assignment& so_far : out) {
      const auto add = [&](const std::string& who, double weight) {
        Assignment next = so_far;
        next.who.push_back(who), next.weight *= weight;
        if (next.weight > 0) longer.push_back(std::move(next));
      };
      for (const Candidate& c : night[j].candidates) {
        const bool before = std::count(so_far.who.begin(), so_far.who.end(), c.individual.value) > 0 ||
                            options.taken.contains(c.individual);
        add(c.individual.value, c.probability * (before ? options.twice_in_a_night : 1));
      }
      add("new", night[j].new_probability);
      for (const NightPair& pair : pairs)
        if (pair.b == j && so_far.who[pair.a] == "new")
          add("=" + std::to_string(pair.a),
              night[j].new_probability * options.twice_in_a_night * std::exp(pair.llr) / options.unseen);
    }
    out = std::move(longer);
  }
  double sum = 0;
  for (const Assignment& a : out) sum += a.weight;
  for (Assignment& a : out) a.weight /= sum;
  return out;
}

std::map<std::string, double> marginal(const std::vector<Assignment>& all, size_t j) {
  std::map<std::string, double> out;
  for (const Assignment& a : all) out[a.who[j]] += a.weight;
  return out;
}

double cost_without_look(const std::map<std::string, double>& p) {
  double best = 0, fresh = 0;
  for (const auto& [who, share] : p) {
    if (who == "new")
      fresh = share;
    else if (who[0] != '=')
      best = std::max(best, share);
  }
  return std::min(10 * (1 - best), 1 - fresh);
}

// What knowing the answer of capture i is expected to save.
double gain_by_enumeration(const std::vector<Assignment>& all, size_t i, size_t captures) {
  double gain = cost_without_look(marginal(all, i));
  for (const auto& [answer, p] : marginal(all, i)) {
    std::vector<Assignment> left;
    for (const Assignment& a : all)
      if (a.who[i] == answer) left.push_back({a.who, a.weight / p});
    for (size_t j = 0; j < captures; ++j)
      if (j != i)
        gain += p * (std::min(0.05, cost_without_look(marginal(all, j))) -
                     std::min(0.05, cost_without_look(marginal(left, j))));
  }
  return gain;
}

std::vector<RankedCapture> random_night(std::mt19937& rng, int captures) {
  std::uniform_real_distribution<> draw(0, 1);
  std::vector<RankedCapture> night;
  for (int i = 0; i < captures; ++i) {
    std::map<std::string, double> weights;
    double is_new = std::pow(draw(rng), 4) + 1e-3, sum = is_new;
    for (const char* who : {"A", "B", "C"}) sum += weights[who] = std::pow(draw(rng), 8);
    for (auto& [who, p] : weights) p /= sum;
    night.push_back(capture(std::to_string(i), weights, is_new / sum));
  }
  return night;
}

TEST(RankTogether, ProbabilitiesTwinsAndGainsAgreeWithEnumerationOnSmallNights) {
  std::mt19937 rng(11);
  std::uniform_real_distribution<> draw(-2, 12);
  for (int trial = 0; trial < 60; ++trial) {
    std::vector<RankedCapture> night = random_night(rng, 4);
    const std::vector<NightPair> pairs = {{0, 1, draw(rng)}, {1, 3, draw(rng)}, {0, 3, draw(rng)}};
    OneNightOptions options;
    options.unseen = 50;
    if (trial % 2) options.taken = {IndividualId("B")};
    const auto all = all_assignments(night, pairs, options);
    rank_together(night, {}, options, pairs);
    for (size_t j = 0; j < night.size(); ++j) {
      const auto exact = marginal(all, j);
      double is_new = 0, sum = night[j].new_probability;
      for (const auto& [who, p] : exact)
        if (who == "new" || who[0] == '=') is_new += p;
      EXPECT_NEAR(night[j].new_probability, is_new, 5e-3);
      for (const Candidate& c : night[j].candidates) {
        EXPECT_NEAR(c.probability, exact.contains(c.individual.value) ? exact.at(c.individual.value) : 0,
                    5e-3);
        sum += c.probability;
      }
      EXPECT_NEAR(sum, 1, 1e-9);
      EXPECT_NEAR(night[j].gain, gain_by_enumeration(all, j, night.size()), 3e-2) << trial << " " << j;
      EXPECT_GE(night[j].gain, 0);
      for (const NightMatch& match : night[j].night_matches) {
        const auto other = static_cast<size_t>(std::stoi(match.capture.value));
        const auto later = marginal(all, std::max(j, other));
        EXPECT_NEAR(match.probability, later.at("=" + std::to_string(std::min(j, other))), 5e-3);
      }
    }
  }
}

TEST(RankTogether, PassingStaysNearEnumeration) {
  std::mt19937 rng(5);
  std::uniform_real_distribution<> draw(-2, 12);
  double worst = 0, sum = 0;
  int n = 0;
  for (int trial = 0; trial < 60; ++trial) {
    std::vector<RankedCapture> night = random_night(rng, 4);
    const std::vector<NightPair> pairs = {{0, 1, draw(rng)}, {2, 3, draw(rng)}};
    OneNightOptions options;
    options.states = 0;
    const auto all = all_assignments(night, pairs, options);
    rank_together(night, {}, options, pairs);
    for (size_t j = 0; j < night.size(); ++j)
      for (const Candidate& c : night[j].candidates)
        if (const auto exact = marginal(all, j); exact.contains(c.individual.value)) {
          const double error = std::abs(c.probability - exact.at(c.individual.value));
          worst = std::max(worst, error), sum += error, ++n;
        }
  }
  EXPECT_LT(worst, 0.2) << "four captures that fight over three animals";
  EXPECT_LT(sum / n, 0.02);
}

// The fault to be kept away: two captures of one new animal, both called new without a word, are two animals.
TEST(RankTogether, TwoCapturesOfOneNewAnimalDoNotSilentlyBecomeTwo) {
  std::vector<RankedCapture> night = {capture("1", {{"A", 0.001}}, 0.999),
                                      capture("2", {{"B", 0.001}}, 0.999),
                                      capture("3", {{"C", 0.001}}, 0.999)};
  std::vector<RankedCapture> strangers = night;
  rank_together(night, {}, {}, {{0, 1, 9.5}, {0, 2, -4}, {1, 2, -4}});
  EXPECT_EQ(night[0].advice, Advice::new_individual) << "it is new, whoever else shows it";
  EXPECT_EQ(night[1].advice, Advice::look);
  EXPECT_EQ(night[2].advice, Advice::new_individual);
  ASSERT_EQ(night[1].night_matches.size(), 1U);
  EXPECT_EQ(night[1].night_matches[0].capture, CaptureId("1"));
  EXPECT_GT(night[1].night_matches[0].probability, 0.5);
  ASSERT_EQ(night[0].night_matches.size(), 1U);
  EXPECT_EQ(night[0].night_matches[0].capture, CaptureId("2"));
  EXPECT_GT(night[1].new_probability, 0.99) << "new to the catalogue it is";
  EXPECT_EQ(looking_order(night)[0], 1U);
  rank_together(strangers, {}, {}, {{0, 1, -4}, {0, 2, -4}, {1, 2, -4}});
  for (const RankedCapture& one : strangers) {
    EXPECT_EQ(one.advice, Advice::new_individual);
    EXPECT_TRUE(one.night_matches.empty());
  }
}

TEST(RankTogether, AnAnimalAlreadyFoundThatNightIsLessLikelyTheNextOne) {
  std::vector<RankedCapture> alone = {capture("1", {{"A", 0.9}}, 0.1)}, after = alone;
  rank_together(alone);
  OneNightOptions options;
  options.taken = {IndividualId("A")};
  rank_together(after, {}, options);
  EXPECT_NEAR(of(alone[0], "A"), 0.9, 1e-12);
  EXPECT_NEAR(of(after[0], "A"), 0.9 * 0.02 / (0.9 * 0.02 + 0.1), 1e-12);
}

// One answer that settles two captures is worth more than one that settles itself alone.
TEST(LookingOrder, TheLookThatAlsoSettlesAnotherComesFirst) {
  std::vector<RankedCapture> night = {capture("lone", {{"Z", 0.6}}, 0.4), capture("1", {{"A", 0.6}}, 0.4),
                                      capture("2", {{"A", 0.6}, {"B", 0.39}}, 0.01)};
  rank_together(night);
  const std::vector<size_t> order = looking_order(night);
  EXPECT_EQ(order.size(), 3U);
  EXPECT_NE(order[0], 0U);
  for (size_t k = 1; k < order.size(); ++k) EXPECT_GE(night[order[k - 1]].gain, night[order[k]].gain);
}

}  // namespace
}  // namespace evet
