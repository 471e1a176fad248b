#include "tools/trial/trial_refit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

namespace evet::trial {
namespace {

// Ratios that are their own log-likelihood ratios (normal, same spread, means half its square apart), then
// told `scale` times as large and shifted: the map that mends them is 1 / scale and -shift / scale.
Trial told(size_t individuals, double scale, double shift, int captures = 2) {
  std::mt19937 rng(21);
  constexpr double kSpread = 2.5;
  std::normal_distribution<double> normal(0, kSpread);
  Trial trial;
  for (size_t i = 0; i < individuals; ++i) trial.individuals.push_back(std::to_string(i));
  for (size_t i = 0; i < individuals; ++i)
    for (int capture = 0; capture < captures; ++capture)
      for (size_t j = 0; j < individuals; ++j) {
        const double llr = normal(rng) + (i == j ? 1 : -1) * kSpread * kSpread / 2;
        const double said = scale * llr + shift;
        trial.pairs.push_back({i, j, {said, i == j, 1}, said});
      }
  return trial;
}

RefitOptions options() {
  RefitOptions out;
  out.resamples = 200;
  out.lowest = -40, out.highest = 40;  // far out: the caps have tests of their own
  return out;
}

TEST(Refit, FindsTheMapThatMendsWhatWasOverstated) {
  const Refit r = refit(told(80, 2, 1), options());
  EXPECT_EQ(r.refused, "");
  EXPECT_NEAR(r.map.scale, 0.5, 0.12);
  EXPECT_NEAR(r.map.shift, -0.5, 0.4);
  EXPECT_LT(r.after, r.before);
  EXPECT_GT(r.gain.low, 0);
  EXPECT_EQ(r.folds, 10);
}

TEST(Refit, RefusesWhenThereIsNothingToGain) {
  const Refit r = refit(told(40, 1, 0), options());
  EXPECT_THAT(r.refused, testing::HasSubstr("does not certainly help"));
  EXPECT_NEAR(r.map.scale, 1, 0.25);
}

TEST(Refit, RefusesTooFewAnimalsWithTheNumberThatWouldDo) {
  const Refit r = refit(told(12, 3, 0), options());
  EXPECT_THAT(r.refused, testing::HasSubstr("only 12 animals are confirmed on two evenings"));
  EXPECT_THAT(r.refused, testing::HasSubstr("at least 20"));
  EXPECT_TRUE(r.map.changes_nothing());
}

TEST(Refit, LittleDataMovesItLittle) {
  const Trial few = told(8, 2, 0), many = told(60, 2, 0);
  const double from_few = fit_llr_map(few.pairs, 8, options()).scale,
               from_many = fit_llr_map(many.pairs, 60, options()).scale;
  EXPECT_LT(from_many, from_few);
  EXPECT_LT(from_few, 1);
  EXPECT_NEAR(from_many, 0.5, 0.2);
}

TEST(Refit, GivesTheSameForTheSameSeed) {
  const Refit a = refit(told(30, 2, 0), options()), b = refit(told(30, 2, 0), options());
  EXPECT_EQ(a.map.scale, b.map.scale);
  EXPECT_EQ(a.gain.low, b.gain.low);
}

TEST(Refit, OfOnlyOneKindOfPairIsTheShippedMap) {
  Trial trial = told(30, 2, 0);
  std::erase_if(trial.pairs, [](const Pair& pair) { return pair.trial.same; });
  EXPECT_TRUE(fit_llr_map(trial.pairs, 30, options()).changes_nothing());
  EXPECT_THAT(refit(trial, options()).refused, testing::HasSubstr("only 0 animals"));
}

}  // namespace
}  // namespace evet::trial
