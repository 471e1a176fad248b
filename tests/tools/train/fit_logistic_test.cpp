#include "tools/train/fit_logistic.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "matcher/base/error.h"

namespace evet::train {
namespace {

// Same and different pairs from two normal distributions of one spread: the log-likelihood ratio is linear,
// with a known slope. The second input only ever misleads.
std::vector<Example> examples(double misleading, int n = 4000) {
  std::mt19937 rng(3);
  std::normal_distribution<double> normal(0, 1);
  std::vector<Example> out;
  for (int i = 0; i < n; ++i) {
    const bool same = i % 2 == 0;
    out.push_back(
        {{normal(rng) + (same ? 1 : -1), normal(rng) + (same ? -misleading : misleading)}, same, 1});
  }
  return out;
}

TEST(FitLogistic, FindsTheSlopeOfTwoNormals) {
  const LogisticModel model = fit_logistic(examples(0), {{0, 0}, 1e-3});
  // llr(x) = ((x + 1)^2 - (x - 1)^2) / 2 = 2 x
  EXPECT_NEAR(model.log_odds({1, 0}) - model.log_odds({0, 0}), 2, 0.15);
  EXPECT_NEAR(model.log_odds({0, 0}), 0, 0.15);
}

TEST(FitLogistic, AWeightThatComesOutTheWrongWayRoundIsHeldAtNought) {
  const LogisticModel free = fit_logistic(examples(0.5), {{0, 0}, 1e-3}),
                      held = fit_logistic(examples(0.5), {{1, 1}, 1e-3});
  EXPECT_LT(free.weights[2], -0.5);
  EXPECT_EQ(held.weights[2], 0);
  EXPECT_GT(held.weights[1], 0);
  // The rest is fitted again, as if the input were not there.
  const LogisticModel alone = fit_logistic(examples(0.5), {{1, -1}, 1e-3});
  EXPECT_LT(alone.weights[2], 0) << "the sign it has is allowed here";
}

TEST(FitLogistic, SignsThatTheDataAgreeWithChangeNothing) {
  const LogisticModel free = fit_logistic(examples(0.5), {{0, 0}, 1}),
                      signed_ = fit_logistic(examples(0.5), {{1, -1}, 1});
  for (size_t k = 0; k < free.weights.size(); ++k) EXPECT_NEAR(free.weights[k], signed_.weights[k], 1e-9);
}

TEST(FitLogistic, BothKindsWeighAlikeHoweverManyThereAre) {
  std::vector<Example> few_same = examples(0);
  std::erase_if(few_same, [n = 0](const Example& e) mutable { return e.same && n++ % 4 != 0; });
  EXPECT_NEAR(fit_logistic(few_same, {{0, 0}, 1e-3}).log_odds({0, 0}), 0, 0.2);
}

TEST(FitLogistic, WhereTheModelIsTrueThePriorsDoNotMatter) {
  const LogisticModel model = fit_logistic(examples(0, 40000), {{0, 0}, 1e-3, {0.5, 0.01, 0.001}});
  EXPECT_NEAR(model.log_odds({1, 0}) - model.log_odds({0, 0}), 2, 0.15);
  EXPECT_NEAR(model.log_odds({0, 0}), 0, 0.2);
}

// One different pair in a hundred scores almost as one of the same animal. The true ratio at 3 is known:
// exp(-(3 - 2)^2 / 2) / (0.01 exp(-(3 - 1)^2 / 2)), the natural logarithm of which is 6.1.
TEST(FitLogistic, LowPriorsHearOfRarePairsWithHighRatios) {
  std::mt19937 rng(5);
  std::normal_distribution<double> normal(0, 1);
  std::vector<Example> rare;
  for (int i = 0; i < 40000; ++i) {
    const bool same = i % 2 == 0, alike = i % 200 == 1;
    rare.push_back({{normal(rng) + (same ? 2 : alike ? 1 : -3)}, same, 1});
  }
  const double at_half = fit_logistic(rare, {{0}, 1e-3}).log_odds({3}),
               at_low = fit_logistic(rare, {{0}, 1e-3, {0.005}}).log_odds({3});
  EXPECT_LT(std::abs(at_low - 6.1), std::abs(at_half - 6.1));
  EXPECT_NEAR(at_low, 6.1, 1.5);
}

TEST(FitLogistic, APriorIsAProbability) {
  EXPECT_THROW(fit_logistic(examples(0), {{0, 0}, 1, {0.5, 0}}), Error);
  EXPECT_THROW(fit_logistic(examples(0), {{0, 0}, 1, {1}}), Error);
}

TEST(FitLogistic, NeedsBothKinds) {
  std::vector<Example> one_kind = examples(0);
  std::erase_if(one_kind, [](const Example& e) { return e.same; });
  EXPECT_THROW(fit_logistic(one_kind, {{0, 0}, 1}), Error);
}

}  // namespace
}  // namespace evet::train
