#include "models/identity/combine_draws.h"

#include <gtest/gtest.h>

#include <cmath>

#include "models/base/messages.h"
#include "models/base/random.h"

namespace evet::models {
namespace {

Estimate number(double value, double standard_error) {
  Estimate one;
  one.parameter = "N", one.value = value, one.standard_error = standard_error;
  return one;
}

// Worked by hand from Rubin's formulas: logarithms 0, ln 2, ln 4 spread by ln 2 about ln 2, each with a
// variance of 0.04 within.
TEST(CombineDraws, FollowsRubinsRules) {
  const Estimate out = combine_draws({number(1, 0.2), number(2, 0.4), number(4, 0.8)});
  EXPECT_EQ(out.parameter, "N");
  EXPECT_NEAR(out.value, 2, 1e-12);
  const double between = std::log(2) * std::log(2), total = 0.04 + 4.0 / 3 * between;
  EXPECT_NEAR(out.details.at("variance within"), 0.04, 1e-12);
  EXPECT_NEAR(out.details.at("variance between"), between, 1e-12);
  EXPECT_NEAR(out.standard_error, 2 * std::sqrt(total), 1e-12);
  const double freedom = 2 * std::pow(1 + 0.04 / (4.0 / 3 * between), 2);
  EXPECT_NEAR(out.details.at("degrees of freedom"), freedom, 1e-12);
  // R 4.2.2: qt(0.975, 2.257562)
  EXPECT_NEAR(freedom, 2.257562, 1e-6);
  EXPECT_NEAR(std::log(out.intervals[0].upper / 2) / std::sqrt(total), 3.864844, 1e-5);
  EXPECT_NEAR(out.intervals[0].lower * out.intervals[0].upper, 4, 1e-9) << "even on the logarithm";
}

TEST(CombineDraws, GivesBackWhatHasNoSpread) {
  const Estimate out = combine_draws({number(40, 4), number(40, 4)});
  EXPECT_NEAR(out.value, 40, 1e-12);
  EXPECT_NEAR(out.standard_error, 4, 1e-12);
  EXPECT_NEAR(out.intervals[0].upper, 40 * std::exp(1.959964 * 0.1), 1e-4);
}

TEST(CombineDraws, SaysWhenDrawsHaveNoEstimate) {
  const Estimate none = number(kInfinity, kUndefined);
  const Estimate some = combine_draws({number(40, 4), number(41, 4), none});
  EXPECT_TRUE(std::isfinite(some.value));
  EXPECT_EQ(some.intervals[0].upper, kInfinity);
  EXPECT_EQ(some.warnings.size(), 1u);
  const Estimate most = combine_draws({number(40, 4), none, none});
  EXPECT_TRUE(std::isnan(most.value));
  EXPECT_FALSE(most.undefined.empty());
  EXPECT_FALSE(combine_draws({}).undefined.empty());
}

// Half of a normal sample's logarithms are missing and drawn from what the rest says, parameters and all
// (Rubin 1987, example 4.1 in spirit): the interval holds its level.
TEST(CombineDraws, IntervalsCoverTheTruth) {
  Random random(7);
  int covered = 0;
  const int studies = 2000, n = 40, seen = 20, m = 10;
  for (int study = 0; study < studies; ++study) {
    double sum = 0, squares = 0;
    for (int i = 0; i < seen; ++i) {
      const double x = std::log(50) + random.normal();
      sum += x, squares += x * x;
    }
    const double mean = sum / seen, variance = (squares - sum * mean) / (seen - 1);
    std::vector<Estimate> draws;
    for (int draw = 0; draw < m; ++draw) {
      double chi = 0;
      for (int i = 0; i < seen - 1; ++i) chi += std::pow(random.normal(), 2);
      const double drawn_sd = std::sqrt(variance * (seen - 1) / chi);
      const double drawn_mean = mean + drawn_sd / std::sqrt(seen) * random.normal();
      double all = sum, all_squares = squares;
      for (int i = seen; i < n; ++i) {
        const double x = drawn_mean + drawn_sd * random.normal();
        all += x, all_squares += x * x;
      }
      const double at = all / n, error = std::sqrt((all_squares - all * at) / (n - 1) / n);
      draws.push_back(number(std::exp(at), std::exp(at) * error));
    }
    const Interval interval = combine_draws(draws).intervals[0];
    covered += interval.lower <= 50 && 50 <= interval.upper ? 1 : 0;
  }
  EXPECT_GT(covered, 0.935 * studies);
  EXPECT_LT(covered, 0.97 * studies);
  RecordProperty("covered", covered);
}

TEST(CombineDraws, ChancesAtTheirEndKeepAWidth) {
  std::vector<Estimate> draws(20, estimate_of({Quantity::survival}));
  for (Estimate& draw : draws) {
    draw.value = 1, draw.standard_error = 0;
    draw.intervals = {{0.7, 1, 0.95, messages::kIntervalProfileLikelihood}};
  }
  const Estimate out = combine_draws(draws);
  EXPECT_NEAR(out.value, 1, 1e-12);
  EXPECT_LE(out.value, 1);
  EXPECT_NEAR(out.intervals.front().lower, 0.7, 0.01);
  EXPECT_EQ(out.intervals.front().upper, 1);
  for (Estimate& draw : draws) {
    draw.value = 0.8, draw.standard_error = 0.05;
    draw.intervals = {{0.68, 0.88, 0.95, messages::kIntervalNormalOnLogit}};
  }
  const Estimate inside = combine_draws(draws);
  EXPECT_NEAR(inside.value, 0.8, 1e-9);
  EXPECT_NEAR(inside.standard_error, 0.05, 1e-9);
}

}  // namespace
}  // namespace evet::models
