// Process and sampling variance, held to a published analysis that any statistics handbook repeats, and to a known truth.
#include "models/trend/trend.h"

#include <gtest/gtest.h>

#include <cmath>

#include "models/base/random.h"

namespace evet::models {
namespace {

// Thirteen trials of a vaccine: Colditz et al. (1994), JAMA 271:698-702; cases and others, treated and not, and
// degrees of latitude. Log relative risks with their sampling variances. The squares (152.2330 about a mean, 30.7331
// about a line over latitude) and the limits of the variance between trials (0.1197 to 1.1115) are those printed by
// Viechtbauer (2010), J. Stat. Softw. 36(3) (from memory; worked out again by bisection in another language, which
// gave also 0.318068 and, over latitude, 0.142132, slope -0.0285645 with error 0.00907019).
struct Trials {
  std::vector<double> risk, variance, latitude;
};
Trials trials() {
  const double counts[13][5] = {
      {4, 119, 11, 128, 44},       {6, 300, 29, 274, 55},        {3, 228, 11, 209, 42},
      {62, 13536, 248, 12619, 52}, {33, 5036, 47, 5761, 13},     {180, 1361, 372, 1079, 44},
      {8, 2537, 10, 619, 19},      {505, 87886, 499, 87892, 13}, {29, 7470, 45, 7232, 27},
      {17, 1699, 65, 1600, 42},    {186, 50448, 141, 27197, 18}, {5, 2493, 3, 2338, 33},
      {27, 16886, 29, 17825, 33}};
  Trials out;
  for (const auto& [a, b, c, d, latitude] : counts) {
    out.risk.push_back(std::log(a / (a + b) / (c / (c + d))));
    out.variance.push_back(1 / a - 1 / (a + b) + 1 / c - 1 / (c + d));
    out.latitude.push_back(latitude);
  }
  return out;
}

TEST(Trend, VarianceBetweenTrialsIsThePublishedOne) {
  const Trials data = trials();
  const VarianceComponents parts = variance_components(data.risk, data.variance, {});
  EXPECT_NEAR(parts.squares, 152.2330, 5e-5);
  EXPECT_NEAR(parts.lower, 0.1197, 5e-5);
  EXPECT_NEAR(parts.upper, 1.1115, 5e-5);
  EXPECT_NEAR(parts.process_variance, 0.318068, 1e-6);
}

TEST(Trend, LineOverLatitudeIsThatOfAnotherRoad) {
  const Trials data = trials();
  const VarianceComponents parts = variance_components(data.risk, data.variance, data.latitude);
  EXPECT_NEAR(parts.squares, 30.7331, 5e-5);
  EXPECT_NEAR(parts.process_variance, 0.142132, 1e-6);
  EXPECT_NEAR(parts.slope, -0.0285645, 1e-7);
  EXPECT_NEAR(parts.slope_error, 0.00907019, 1e-7);
  EXPECT_EQ(parts.degrees_of_freedom, 11);
}

TEST(Trend, NumbersOnALineHaveNoSpreadBetweenYears) {
  std::vector<YearlyNumber> numbers;
  for (int year = 0; year < 6; ++year) {
    const double n = 100 * std::pow(0.9, year);
    numbers.push_back({static_cast<double>(year), n, 0.1 * n});
  }
  const std::vector<Estimate> both = yearly_trend(numbers);
  ASSERT_EQ(both.size(), 2u);
  EXPECT_NEAR(both[0].value, 0.9, 1e-9);
  EXPECT_EQ(both[1].value, 0);
  EXPECT_LT(both[1].intervals.front().upper, 0.15);
  numbers.resize(3);
  EXPECT_TRUE(yearly_trend(numbers).empty()) << "three years are no trend";
  numbers.push_back({3, 0, 0});
  EXPECT_TRUE(yearly_trend(numbers).empty()) << "a year without a number";
}

// 95 % limits over 2,000 sets: a share outside 93.5-96.5 % would come by chance once in a thousand times.
TEST(Trend, TruthLiesInItsLimits) {
  for (const double spread : {0.3, 0.1}) {
    int trend_held = 0, spread_held = 0;
    const int sets = 2000;
    for (int set = 0; set < sets; ++set) {
      Random random(500 + static_cast<std::uint64_t>(set));
      std::vector<YearlyNumber> numbers;
      for (int year = 0; year < 8; ++year) {
        const double sd = year % 2 ? 0.1 : 0.2,
                     log_n = 5 - 0.1 * year + spread * random.normal() + sd * random.normal();
        numbers.push_back(
            {static_cast<double>(year), std::exp(log_n), std::exp(log_n) * std::sqrt(std::expm1(sd * sd))});
      }
      const std::vector<Estimate> both = yearly_trend(numbers);
      const Interval of_trend = both[0].intervals.front(), of_spread = both[1].intervals.front();
      trend_held += of_trend.lower <= std::exp(-0.1) && std::exp(-0.1) <= of_trend.upper ? 1 : 0;
      spread_held += of_spread.lower <= spread && spread <= of_spread.upper ? 1 : 0;
    }
    EXPECT_GE(spread_held, 0.935 * sets) << spread;
    EXPECT_LE(spread_held, 0.965 * sets) << spread;
    EXPECT_GE(trend_held, 0.935 * sets) << spread;
    if (spread > 0.2) {
      EXPECT_LE(trend_held, 0.965 * sets) << "where the spread is small it is often put too high";
    }
  }
}

TEST(Trend, OnlyNumbersAYearApartAreYearly) {
  std::vector<Estimate> answer;
  for (int i = 1; i <= 4; ++i) {
    answer.push_back(estimate_of({Quantity::number, i}));
    answer.back().value = 100;
    answer.back().standard_error = 10;
  }
  const auto yearly = yearly_numbers(
      answer, {{"2031-04-10", "2031-04-14"}, "2032-04-10", "2033-04-12", {"2035-04-11", "2035-04-13"}});
  ASSERT_EQ(yearly.size(), 4u);
  EXPECT_NEAR(yearly[3].years, 4.0, 0.01);
  EXPECT_TRUE(
      yearly_numbers(answer, {Moment("2031-04-10"), "2031-05-10", "2031-06-10", "2031-07-10"}).empty());
  EXPECT_TRUE(yearly_numbers(answer, {Moment("1"), "2", "3", "4"}).empty());
}

}  // namespace
}  // namespace evet::models
