// Held to tests/data/checkvalues/09_matching_and_agreement.json: Cohen 1960, Fleiss 1971, Fleiss, Cohen &
// Everitt 1969, Fleiss, Levin & Paik 2003, each named in its entry, and to exact limits worked out by hand.
#include "matcher/catalogue/kappa.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <tuple>

namespace evet {
namespace {

using nlohmann::json;

json check_entry(const std::string& id) {
  std::ifstream input(EVET_TEST_DATA "/checkvalues/09_matching_and_agreement.json");
  const json topic = json::parse(input);
  for (const json& entry : topic.at("entries"))
    if (entry.at("id") == id) return entry;
  throw std::runtime_error("no entry " + id);
}

void agrees(const json& entry, const std::string& name, double got) {
  const json& check = entry.at("expected").at(name);
  const double wanted = check.at("value");
  const double difference = std::abs(got - wanted);
  EXPECT_LE(difference, check.at("tol_rel").get<double>() * std::abs(wanted)) << name << ": got " << got;
  std::printf("  %-40s %14.10f  %4.1f digits\n", (entry.at("id").get<std::string>() + " " + name).c_str(),
              got, difference == 0 ? 15.0 : -std::log10(difference / std::abs(wanted)));
}
void agrees(const json& entry, const std::string& name, const std::vector<double>& got) {
  const json& check = entry.at("expected").at(name);
  ASSERT_EQ(check.at("value").size(), got.size());
  for (size_t i = 0; i < got.size(); ++i)
    EXPECT_NEAR(got[i], check.at("value")[i].get<double>(),
                check.at("tol_rel").get<double>() * std::abs(check.at("value")[i].get<double>()))
        << name << " " << i;
}

TEST(Kappa, OfTwoReadersAgreesWithPublishedTables) {
  for (const char* id : {"agree.cohen_200", "agree.fce1969", "agree.fleiss_book"}) {
    const json entry = check_entry(id);
    const auto kappa = cohen_kappa(entry.at("data").at("table").get<std::vector<std::vector<int>>>());
    ASSERT_TRUE(kappa);
    agrees(entry, "observed_agreement", kappa->observed);
    agrees(entry, "chance_agreement", kappa->chance);
    agrees(entry, "kappa", kappa->kappa);
    agrees(entry, "se_non_null", kappa->se);
    agrees(entry, "se_null", kappa->se_null);
    // Of hundreds of cases it is near the large-sample one, and never much narrower.
    const double wide = kappa->interval.high - kappa->interval.low, large_sample = 2 * 1.959964 * kappa->se;
    EXPECT_GT(wide, 0.95 * large_sample);
    EXPECT_LT(wide, 1.35 * large_sample);
    EXPECT_LT(kappa->interval.low, kappa->kappa);
    EXPECT_GT(kappa->interval.high, kappa->kappa);
  }
}

TEST(Kappa, OfManyReadersAgreesWithFleiss1971) {
  const json entry = check_entry("agree.fleiss_30");
  const auto kappa = fleiss_kappa(entry.at("data").at("counts").get<std::vector<std::vector<int>>>());
  ASSERT_TRUE(kappa);
  agrees(entry, "mean_agreement", kappa->observed);
  agrees(entry, "chance_agreement", kappa->chance);
  agrees(entry, "kappa", kappa->kappa);
  agrees(entry, "se_null_1979", kappa->se_null);
  agrees(entry, "category_shares", kappa->category_shares);
  std::vector<double> by_category;
  for (const auto& one : kappa->by_category) by_category.push_back(one.value());
  agrees(entry, "kappa_by_category", by_category);
}

// The standard error of many readers' kappa by brute force: leave one case out at a time.
TEST(Kappa, OfManyReadersHasTheStandardErrorOfTheJackknife) {
  const auto counts =
      check_entry("agree.fleiss_30").at("data").at("counts").get<std::vector<std::vector<int>>>();
  std::vector<double> without;
  for (size_t leave = 0; leave < counts.size(); ++leave) {
    auto rest = counts;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(leave));
    without.push_back(fleiss_kappa(rest)->kappa);
  }
  double mean = 0, spread = 0;
  for (const double kappa : without) mean += kappa / static_cast<double>(without.size());
  for (const double kappa : without) spread += (kappa - mean) * (kappa - mean);
  const double n = static_cast<double>(counts.size());
  EXPECT_NEAR(fleiss_kappa(counts)->se, std::sqrt(spread * (n - 1) / n), 0.003);
}

TEST(Kappa, OfTwoReadersIsThatOfManyWhenTheyUseTheCategoriesAlike) {
  const auto two = cohen_kappa({{20, 5}, {5, 10}});
  std::vector<std::vector<int>> counts;
  for (int i = 0; i < 20; ++i) counts.push_back({2, 0});
  for (int i = 0; i < 10; ++i) counts.push_back({1, 1});
  for (int i = 0; i < 10; ++i) counts.push_back({0, 2});
  const auto many = fleiss_kappa(counts);
  EXPECT_NEAR(two->kappa, many->kappa, 1e-12);
  EXPECT_NEAR(two->observed, many->observed, 1e-12);
}

TEST(Kappa, TakesCasesWithDifferentNumbersOfReaders) {
  const auto kappa = fleiss_kappa({{2, 0}, {3, 0}, {1, 1}, {0, 2}, {1, 0}, {0, 0}});
  ASSERT_TRUE(kappa);
  EXPECT_EQ(kappa->cases, 4u);
  EXPECT_NEAR(kappa->observed, 0.75, 1e-12);
  EXPECT_NEAR(kappa->category_shares[0], 2.5 / 4, 1e-12);
}

TEST(Kappa, HasALowerLimitThoughAllAgreed) {
  const auto kappa = cohen_kappa({{10, 0}, {0, 10}});
  ASSERT_TRUE(kappa);
  EXPECT_EQ(kappa->kappa, 1);
  EXPECT_EQ(kappa->interval.high, 1);
  // Exact lower limit of 20 agreements in 20: 0.025^(1/20); chance agreement 1/2.
  EXPECT_NEAR(kappa->interval.low, (std::pow(0.025, 1.0 / 20) - 0.5) / 0.5, 1e-9);
}

// One reader said "same" of all seven: kappa is 0 whatever the other says, and nothing is known of it.
TEST(Kappa, OfSevenCasesClaimsNextToNothing) {
  const auto two = cohen_kappa({{6, 1, 0}, {0, 0, 0}, {0, 0, 0}});
  ASSERT_TRUE(two);
  EXPECT_NEAR(two->kappa, 0, 1e-12);
  EXPECT_EQ(two->interval.low, -1);
  EXPECT_GT(two->interval.high, 0.9);
  // Clopper & Pearson's limits of 6 in 7, worked out from the beta quantiles by hand.
  EXPECT_NEAR(two->observed_interval.low, 0.4213, 5e-5);
  EXPECT_NEAR(two->observed_interval.high, 0.9964, 5e-5);
  std::vector<std::vector<int>> counts(6, {2, 0, 0});
  counts.push_back({1, 1, 0});
  const auto many = fleiss_kappa(counts);
  ASSERT_TRUE(many);
  EXPECT_EQ(many->interval.low, -1);
  EXPECT_GT(many->interval.high, 0.9);
}

// Two readers whose answers, drawn by a rule, have a kappa that is known: how often the interval holds it.
TEST(Kappa, HasAnIntervalThatHoldsWhatIsTrueNineteenTimesInTwenty) {
  std::mt19937 random(7);
  const auto chance = [&](double p) { return std::uniform_real_distribution<>(0, 1)(random) < p; };
  for (const auto& [cases, same, right] :
       {std::tuple(7, 0.5, 0.9), {12, 0.8, 0.9}, {40, 0.8, 0.95}, {150, 0.5, 0.8}}) {
    // Each answers rightly with probability `right`, alike for both kinds of pairs.
    const double agree = right * right + (1 - right) * (1 - right),
                 says_same = same * right + (1 - same) * (1 - right),
                 by_chance = says_same * says_same + (1 - says_same) * (1 - says_same),
                 truth = (agree - by_chance) / (1 - by_chance);
    int held = 0, defined = 0;
    for (int trial = 0; trial < 400; ++trial) {
      std::vector<std::vector<int>> table(2, std::vector<int>(2)), counts;
      for (int i = 0; i < cases; ++i) {
        const bool is_same = chance(same);
        const size_t one = is_same == chance(right), other = is_same == chance(right);
        ++table[one][other];
        counts.push_back({static_cast<int>(one + other), static_cast<int>(2 - one - other)});
      }
      const auto two = cohen_kappa(table);
      const auto many = fleiss_kappa(counts);
      if (!two || !many) continue;
      ++defined;
      held += two->interval.low <= truth && truth <= two->interval.high && many->interval.low <= truth &&
              truth <= many->interval.high;
    }
    std::printf("  %d cases, kappa %.2f: held %d of %d times\n", cases, truth, held, defined);
    // 19 in 20, less two standard errors of so many trials.
    EXPECT_GE(held, (0.95 - 2 * std::sqrt(0.05 * 0.95 / defined)) * defined) << cases;
  }
}

TEST(Kappa, IsNotDefinedWithoutCasesOrWithOneCategory) {
  EXPECT_FALSE(cohen_kappa({{0, 0}, {0, 0}}));
  EXPECT_FALSE(cohen_kappa({{7, 0}, {0, 0}}));
  EXPECT_FALSE(fleiss_kappa({}));
  EXPECT_FALSE(fleiss_kappa({{1, 0}, {0, 1}}));
  EXPECT_FALSE(fleiss_kappa({{2, 0}, {2, 0}}));
  EXPECT_FALSE(fleiss_kappa({{2, 1, 0}, {1, 2, 0}})->by_category[2]);
}

TEST(ErrorRate, HasExactLimits) {
  EXPECT_FALSE(error_rate(0, 0).rate);
  const ErrorRate none = error_rate(0, 100);
  EXPECT_EQ(none.interval.low, 0);
  EXPECT_NEAR(none.interval.high, 1 - std::pow(0.025, 1.0 / 100), 1e-9);
  const ErrorRate all = error_rate(5, 5);
  EXPECT_EQ(all.interval.high, 1);
  EXPECT_NEAR(all.interval.low, std::pow(0.025, 1.0 / 5), 1e-9);
  // Two-sided 95 % limits of 2 in 20 in any table of Clopper & Pearson's: 0.0123 and 0.3170
  // (value from memory).
  const ErrorRate some = error_rate(2, 20);
  EXPECT_NEAR(some.interval.low, 0.0123, 5e-5);
  EXPECT_NEAR(some.interval.high, 0.3170, 5e-5);
}

}  // namespace
}  // namespace evet
