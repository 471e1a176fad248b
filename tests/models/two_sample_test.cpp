// Two-sample estimators against published counts: Dahl (1919) trout, Ricker (1948) bluegill, three lists of a
// hepatitis outbreak (Chao et al. 2001), and exact hypergeometric moments and coverage.
#include "models/closed/two_sample.h"

#include <gtest/gtest.h>

#include <cmath>

#include "check_values.h"
#include "models/base/input_error.h"
#include "models/closed/schnabel.h"

namespace evet::models {
namespace {

using nlohmann::json;
using testing::agrees;
using testing::check_entry;

Interval interval_by(const Estimate& estimate, const std::string& method) {
  for (const Interval& interval : estimate.intervals)
    if (interval.method.words() == method) return interval;
  ADD_FAILURE() << "no interval by " << method;
  return {};
}

std::vector<double> limits(const Interval& interval) {
  return {interval.lower, interval.upper};
}
double squared(double x) {
  return x * x;
}

TwoSampleCounts counts_of(const json& data) {
  return {data.at("M"), data.at("C"), data.at("R")};
}

TEST(TwoSample, PublishedCounts) {
  for (const char* id : {"two.trout_tarn", "two.bluegill"}) {
    const json entry = check_entry("01_two_occasion", id);
    const json& expected = entry.at("expected");
    const TwoSampleCounts counts = counts_of(entry.at("data"));
    const Estimate lp = lincoln_petersen(counts);
    agrees(entry, expected, "lincoln_petersen", lp.value);
    agrees(entry, expected, "lincoln_petersen_var_delta", squared(lp.standard_error));
    const Estimate ch = chapman(counts);
    agrees(entry, expected, "chapman", ch.value);
    agrees(entry, expected, "chapman_seber_se", ch.standard_error);
    agrees(entry, expected, "chapman_seber_var", squared(ch.standard_error));
    agrees(entry, expected, "chapman_wald95", limits(interval_by(ch, "normal")));
    agrees(entry, expected, "chapman_lognormal95", limits(interval_by(ch, "log-normal")));
    agrees(entry, expected, "distinct_animals", ch.details.at("distinct_animals"));
    const Estimate ba = bailey(counts);
    agrees(entry, expected, "bailey", ba.value);
    agrees(entry, expected, "bailey_var", squared(ba.standard_error));
    if (expected.contains("poisson95_for_R"))
      agrees(entry, expected, "poisson95_for_R", limits(poisson_interval(counts.recaptured)));
  }
}

TEST(TwoSample, ThreeListsPairByPair) {
  const json entry = check_entry("01_two_occasion", "two.three_lists_true_545");
  const auto counts = entry.at("data").at("history_counts").get<std::map<std::string, int>>();
  const auto pair = [&](std::size_t a, std::size_t b) {
    std::map<std::string, int> two;
    for (const auto& [history, n] : counts) {
      const std::string short_history{history[a], history[b]};
      if (short_history != "00") two[short_history] += n;
    }
    return two_sample_counts(histories_from_counts(two));
  };
  const std::vector<std::pair<std::string, TwoSampleCounts>> pairs = {
      {"PQ", pair(0, 1)}, {"PE", pair(0, 2)}, {"QE", pair(1, 2)}};
  for (const auto& [name, two] : pairs) {
    agrees(entry, entry.at("expected"), name + "_lincoln_petersen", lincoln_petersen(two).value);
    agrees(entry, entry.at("expected"), name + "_chapman", chapman(two).value);
    agrees(entry, entry.at("expected"), name + "_chapman_se", chapman(two).standard_error);
  }
}

TEST(TwoSample, EdgeCasesAreNeverASilentZero) {
  const json entry = check_entry("01_two_occasion", "two.edge_cases");
  for (const auto& [name, data] : entry.at("data").at("cases").items()) {
    const json& expected = entry.at("expected").at(name);
    const Estimate lp = lincoln_petersen(counts_of(data));
    const Estimate ch = chapman(counts_of(data));
    agrees(entry, expected, "lincoln_petersen", lp.value);
    EXPECT_TRUE(std::isfinite(lp.value) || !lp.undefined.empty());
    agrees(entry, expected, "chapman", ch.value);
    agrees(entry, expected, "chapman_seber_var", squared(ch.standard_error));
    ASSERT_FALSE(ch.intervals.empty());
    EXPECT_EQ(counts_of(data).recaptured == 0, std::isinf(ch.intervals.front().upper)) << name;
  }
}

double hypergeometric(double n, double m, double c, double r) {
  const auto choose = [](double a, double b) {
    return std::lgamma(a + 1) - std::lgamma(b + 1) - std::lgamma(a - b + 1);
  };
  return std::exp(choose(m, r) + choose(n - m, c - r) - choose(n, c));
}

TEST(TwoSample, ExactMomentsAndCoverageUnderHypergeometricSampling) {
  for (const char* id : {"two.exact_hypergeometric", "two.exact_hypergeometric_2"}) {
    const json entry = check_entry("01_two_occasion", id);
    for (const auto& [name, data] : entry.at("data").at("cases").items()) {
      const double n = data.at("N"), m = data.at("M"), c = data.at("C");
      double mean = 0, square = 0, seber = 0, wald = 0, lognormal = 0, exact = 0;
      for (double r = std::max(0.0, m + c - n); r <= std::min(m, c); ++r) {
        const double p = hypergeometric(n, m, c, r);
        const Estimate ch = chapman({m, c, r});
        mean += p * ch.value;
        square += p * squared(ch.value);
        seber += p * squared(ch.standard_error);
        const auto covers = [&](const Interval& i) { return i.lower <= n && n <= i.upper ? p : 0.0; };
        wald += covers(normal_interval(ch.value, ch.standard_error, 0.95));
        lognormal += covers(log_normal_interval(ch.value, ch.standard_error, m + c - r, 0.95));
        exact += covers(hypergeometric_interval({m, c, r}));
      }
      const json& expected = entry.at("expected").at(name);
      agrees(entry, expected, "mean_chapman", mean);
      agrees(entry, expected, "var_chapman", square - squared(mean));
      agrees(entry, expected, "mean_of_seber_variance", seber);
      agrees(entry, expected, "wald95_exact_coverage", wald);
      agrees(entry, expected, "lognormal95_exact_coverage", lognormal);
      EXPECT_GE(exact, 0.95) << "an exact interval covers at least as often as it says";
    }
  }
}

TEST(TwoSample, ExactIntervalIsTheSetOfPopulationsNotRejected) {
  const TwoSampleCounts counts{12, 9, 4};
  const Interval interval = hypergeometric_interval(counts);
  for (double n = 17; n < 200; ++n) {
    double below = 0, above = 0;
    for (double r = std::max(0.0, 21 - n); r <= 9; ++r) {
      if (r <= 4) below += hypergeometric(n, 12, 9, r);
      if (r >= 4) above += hypergeometric(n, 12, 9, r);
    }
    EXPECT_EQ(below >= 0.025 && above >= 0.025, interval.lower <= n && n <= interval.upper) << n;
  }
}

TEST(TwoSample, CountsThatCannotBeAreRefused) {
  EXPECT_THROW(chapman({5, 5, 6}), InputError);
  EXPECT_THROW(chapman({-1, 5, 0}), InputError);
  EXPECT_THROW(chapman({1.5, 5, 0}), InputError);
  EXPECT_THROW(chapman({5, 5, 2}, 1.0), InputError);
  EXPECT_THROW(two_sample_counts(histories_from_counts({{"101", 1}})), InputError);
}

}  // namespace
}  // namespace evet::models
