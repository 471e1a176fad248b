#include "tools/train/fit_best_of.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "matcher/base/error.h"

namespace evet::train {
namespace {

const std::vector<double> kPriors = {0.5, 0.05, 0.005};

MatchingModel with_caps() {
  MatchingModel model;
  model.highest = 14, model.lowest = -8;
  return model;
}

// Ratios of single tries that are right, of two normals 3 apart: x = 3 z. Photos of a different animal are
// each a try of chance's own; those of the same animal all fit alike, or each on its own.
std::vector<BestOf> examples(bool same_alike, size_t tries) {
  std::mt19937 rng(11);
  std::normal_distribution<double> normal(0, 1);
  std::vector<BestOf> out;
  for (int i = 0; i < 30000; ++i) {
    const bool same = i % 2 == 0;
    double best = -1e9;
    for (size_t k = 0; k < (same && same_alike ? 1 : tries); ++k)
      best = std::max(best, 3 * (normal(rng) + (same ? 1.5 : -1.5)));
    out.push_back({best, tries, same, 1});
  }
  return out;
}

TEST(FitBestOf, WherePhotosOfTheAnimalShareTheirLuckItIsTheUnionBound) {
  const BestOfTries fitted = fit_best_of(examples(true, 3), with_caps(), kPriors);
  // Far out, one of three tries is above x three times as often as one try.
  EXPECT_NEAR(fitted(6, 3, -8, 14), 6 - std::log(3), 0.5);
  EXPECT_EQ(fitted.most, 3U);
}

TEST(FitBestOf, WhereEachPhotoStandsForItselfAMiddlingBestSpeaksAgainst) {
  const BestOfTries fitted = fit_best_of(examples(false, 3), with_caps(), kPriors);
  // Three tries, each on its own: the ratio of the densities of the best is that of one try, times the ratio
  // of the shares below it, squared; at 0 the one ratio is 1 and the shares are those below -1.5 and 1.5.
  const double below = 0.0668, above = 0.9332;
  EXPECT_NEAR(fitted(0, 3, -8, 14), 2 * std::log(below / above), 1.2);
  EXPECT_LT(fitted(0, 3, -8, 14), -std::log(3) - 1);
  EXPECT_GT(fitted(9, 3, -8, 14), 9 - std::log(3));
}

TEST(FitBestOf, CostsLessThanTheUnionBound) {
  const std::vector<BestOf> some = examples(false, 2);
  const BestOfTries fitted = fit_best_of(some, with_caps(), kPriors);
  const double cost = best_of_cost(some, fitted, with_caps(), kPriors);
  EXPECT_GT(cost, 0);
  EXPECT_LT(cost, best_of_cost(some, {}, with_caps(), kPriors));
  // Ratios of 1 are worth knowing only the prior.
  const std::vector<BestOf> mute = {{0, 2, true, 1}, {0, 2, false, 5}};
  EXPECT_NEAR(best_of_cost(mute, {0, 0, 2}, with_caps(), kPriors), 1, 0.01);
}

TEST(FitBestOf, WithoutSeveralTriesOfBothKindsItIsTheUnionBound) {
  std::vector<BestOf> some = examples(true, 1);
  for (BestOf& e : some)
    if (e.same) e.tries = 2;
  const BestOfTries fitted = fit_best_of(some, with_caps(), kPriors);
  EXPECT_EQ(fitted.scale, 0);
  EXPECT_EQ(fitted.shift, 1);
  EXPECT_EQ(fitted.most, 1U);
}

TEST(FitBestOf, APriorThatIsNoneIsRefused) {
  EXPECT_THROW(fit_best_of(examples(true, 2), with_caps(), {0.5, 1}), Error);
}

TEST(FitBestOf, EveryChoiceOfAnAnimalsPhotosIsATry) {
  MatchingModel model = with_caps();
  model.pair = {std::vector<double>(kMeasures, 0), std::vector<double>(kMeasures, 1),
                std::vector<double>(1 + kMeasures, 0)};
  model.pair.weights[1] = 1;  // the first measure is the ratio
  std::vector<ComparedPair> pairs(4);
  for (size_t i = 0; i < pairs.size(); ++i) {
    pairs[i].gallery = i, pairs[i].animal = i < 3 ? 7 : 8, pairs[i].same = i < 3, pairs[i].weight = 2;
    pairs[i].measures[0] = static_cast<double>(i);
  }
  std::vector<double> of_two, weights(4, 0);
  for (const BestOf& e : best_of_tries(pairs, model, 2)) {
    ASSERT_LE(e.tries, 2U);
    if (e.same) weights[e.tries] += e.weight;
    if (e.tries == 2) of_two.push_back(std::round(e.llr));
  }
  std::sort(of_two.begin(), of_two.end());
  EXPECT_EQ(of_two, (std::vector<double>{1, 2, 2})) << "0 and 1, 0 and 2, 1 and 2; the other animal has one";
  EXPECT_DOUBLE_EQ(weights[1], 2);
  EXPECT_DOUBLE_EQ(weights[2], 2);
}

}  // namespace
}  // namespace evet::train
