// The robust design against asymptotic values at known truths, a realised data set, and the identity of
// Kendall et al. (1997).
#include "models/robust/robust_design.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "check_values.h"
#include "gradient_check.h"
#include "models/base/input_error.h"
#include "models/estimate.h"
#include "models/open/jolly_seber.h"
#include "tests/models/named_estimate.h"

namespace evet::models {
namespace {

using nlohmann::json;
using testing::agrees;
using testing::check_entry;
using testing::named;

// Counts as they are expected at the truth of an entry, so that the fit must return the truth and the
// asymptotic errors.
RobustCounts expected_counts(const json& data, const json& expected) {
  const int k = data.at("primary"), s = data.at("secondary");
  const double p = data.at("p"), p_star = 1 - std::pow(1 - p, s);
  const std::vector<double> n = expected.at("expected_n").at("value");
  const Eigen::MatrixXd cells =
      robust_cells(k, data.at("phi"), p_star, data.at("gamma_out"), data.at("gamma_stay"));
  std::vector<double> released(n.begin(), n.end() - 1), newly = n;
  std::vector<std::vector<double>> next;
  for (int i = 0; i + 1 < k; ++i) {
    next.emplace_back();
    for (int j = 1; j < k; ++j) {
      next.back().push_back(j > i ? released[static_cast<std::size_t>(i)] * cells(i, j) : 0);
      newly[static_cast<std::size_t>(j)] -= next.back().back();
    }
  }
  RobustCounts counts;
  counts.periods = m_array(released, next, newly);
  for (const double caught : n) {
    counts.captures.push_back(std::vector<double>(static_cast<std::size_t>(s), caught / p_star * p));
    counts.exposed.push_back(std::vector<double>(static_cast<std::size_t>(s), caught));
  }
  return counts;
}

TEST(RobustDesign, ExpectedCountsGiveTruthAndAsymptoticErrors) {
  for (const char* id : {"robust.none", "robust.random", "robust.random_2"}) {
    const json entry = check_entry("06_robust_design", id);
    const json& expected = entry.at("expected");
    const RobustCounts counts = expected_counts(entry.at("data"), expected);
    std::vector<std::vector<double>> array;
    for (Eigen::Index i = 0; i < counts.periods.next.rows(); ++i) {
      const Eigen::VectorXd row = counts.periods.next.row(i).tail(counts.periods.next.cols() - 1);
      array.emplace_back(row.data(), row.data() + row.size());
    }
    for (std::size_t i = 0; i < array.size(); ++i) {
      const json wanted = {
          {"row", {{"value", expected.at("expected_m_array").at("value")[i]}, {"tol_rel", 1e-7}}}};
      agrees(entry, wanted, "row", array[i]);
    }
    RobustTerms terms;
    if (entry.at("data").at("fitted_model") == "random") terms.emigration = Emigration::random;
    const FittedModel model = fit_robust(counts, terms);
    std::vector<double> values, errors, present, present_se;
    for (std::size_t i = 0; i < expected.at("truth").at("value").size(); ++i) {
      values.push_back(model.estimates[i].value);
      errors.push_back(model.estimates[i].standard_error);
    }
    for (std::size_t i = 1; i <= counts.captures.size(); ++i) {
      present.push_back(named(model, "N " + std::to_string(i)).value);
      present_se.push_back(named(model, "N " + std::to_string(i)).standard_error);
    }
    const json loosened = {
        {"truth", {{"value", expected.at("truth").at("value")}, {"tol_abs", 1e-6}}},
        {"present", {{"value", expected.at("expected_present_N").at("value")}, {"tol_rel", 1e-6}}}};
    agrees(entry, loosened, "truth", values);
    agrees(entry, expected, "asymptotic_se", errors);
    agrees(entry, loosened, "present", present);
    agrees(entry, expected, "asymptotic_se_N_given_present", present_se);
  }
}

TEST(RobustDesign, RandomEmigrationIsHiddenInDetectionBetweenPeriods) {
  const json entry = check_entry("06_robust_design", "robust.random_identity");
  const double phi = 0.85, gamma = 0.2, p_star = 1 - std::pow(0.65, 4);
  agrees(entry, entry.at("expected"), "p_star", p_star);
  agrees(entry, entry.at("expected"), "cjs_detection", (1 - gamma) * p_star);
  const double difference =
      (robust_cells(6, phi, p_star, gamma, gamma) - robust_cells(6, phi, (1 - gamma) * p_star, 0, 0))
          .cwiseAbs()
          .maxCoeff();
  agrees(entry, entry.at("expected"), "largest_cell_difference", difference);
}

CaptureHistories realised(const json& data) {
  CaptureHistories histories = testing::histories_of(data.at("history_counts"));
  const int secondary = data.at("secondary");
  for (std::size_t j = 0; j < histories.occasion_count(); ++j)
    histories.primary.push_back(static_cast<int>(j) / secondary);
  return histories;
}

TEST(RobustDesign, RealisedDataSet) {
  const json entry = check_entry("06_robust_design", "robust.realised");
  const json& expected = entry.at("expected");
  const CaptureHistories histories = realised(entry.at("data"));
  const RobustCounts counts = robust_counts(histories);
  agrees(entry, expected, "animals_caught", static_cast<double>(histories.animal_count()));
  std::vector<double> captures, n;
  for (std::size_t i = 0; i < 5; ++i) {
    captures.push_back(0);
    for (const double one : counts.captures[i]) captures.back() += one;
    n.push_back(counts.periods.caught[static_cast<Eigen::Index>(i)]);
  }
  agrees(entry, expected, "n_per_period", n);
  agrees(entry, expected, "captures_per_period", captures);
  for (Eigen::Index i = 0; i < counts.periods.next.rows(); ++i) {
    const Eigen::VectorXd next = counts.periods.next.row(i).tail(counts.periods.next.cols() - 1);
    const json row = {
        {"m_array",
         {{"value", expected.at("m_array").at("value")[static_cast<std::size_t>(i)]}, {"tol_abs", 0}}}};
    agrees(entry, row, "m_array", std::vector<double>(next.data(), next.data() + next.size()));
  }
  const FittedModel none = fit_robust(counts, {});
  RobustTerms terms;
  terms.emigration = Emigration::random;
  const FittedModel random = fit_robust(counts, terms);
  agrees(entry, expected.at("model_none").at("parameters"), "phi", named(none, "survival").value);
  agrees(entry, expected.at("model_none").at("parameters"), "p", named(none, "capture").value);
  agrees(entry, expected.at("model_none"), "se",
         {none.estimates[0].standard_error, none.estimates[1].standard_error});
  agrees(entry, expected.at("model_none"), "loglik", none.log_likelihood);
  agrees(entry, expected.at("model_random").at("parameters"), "phi", named(random, "survival").value);
  agrees(entry, expected.at("model_random").at("parameters"), "p", named(random, "capture").value);
  agrees(entry, expected.at("model_random").at("parameters"), "gamma", named(random, "absent").value);
  agrees(entry, expected.at("model_random"), "se",
         {random.estimates[0].standard_error, random.estimates[1].standard_error,
          random.estimates[2].standard_error});
  agrees(entry, expected.at("model_random"), "loglik", random.log_likelihood);
  agrees(entry, expected, "lrt_none_vs_random", 2 * (random.log_likelihood - none.log_likelihood));
  std::vector<double> present;
  for (int i = 1; i <= 5; ++i) present.push_back(named(random, "N " + std::to_string(i)).value);
  agrees(entry, expected, "N_i_random", present);
  const json& two = expected.at("two_level");
  std::vector<double> p, each;
  for (const Estimate& estimate : closed_by_period(counts)) {
    p.push_back(estimate.details.at("p"));
    each.push_back(estimate.value);
  }
  agrees(entry, two, "closed_p_each_period", p);
  agrees(entry, two, "closed_N_each_period", each);
  agrees(entry, two, "jolly_seber_phi", jolly_seber(counts.periods).phi);
  terms.emigration = Emigration::markov;
  EXPECT_GE(fit_robust(counts, terms).log_likelihood, random.log_likelihood - 1e-6)
      << "random emigration is a case of the other";
}

TEST(RobustDesign, GradientsAreThoseOfDifferences) {
  const RobustCounts counts =
      robust_counts(realised(check_entry("06_robust_design", "robust.realised").at("data")));
  for (const RobustTerms& terms : {RobustTerms{}, RobustTerms{Emigration::random, true, true, true, false},
                                   RobustTerms{Emigration::markov, true, false, false, true}}) {
    const FittedModel model = fit_robust(counts, terms);
    testing::expect_gradient_of_differences(model, 0.2);
  }
}

// Eight animals, each once in the first period: its chance of capture has no bound below, so its number has none
// above, in no model and in no answer.
TEST(RobustDesign, APeriodInWhichNoneWasCaughtTwiceHasNoNumber) {
  std::map<std::string, int> counted;
  for (std::size_t i = 0; i < 8; ++i) {
    std::string seen(16, '0');
    seen[i] = seen[8 + i] = '1';
    if (i % 2 == 0) seen[8 + (i + 3) % 8] = '1';  // the second period is told
    ++counted[seen];
  }
  CaptureHistories histories = histories_from_counts(counted);
  for (int j = 0; j < 16; ++j) histories.primary.push_back(j / 8);
  RobustTerms by_period;
  by_period.capture_by_period = true;
  const FittedModel model = fit_robust(robust_counts(histories), by_period);
  const Estimate& first = named(model, "N 1");
  EXPECT_FALSE(std::isfinite(first.value)) << first.value;
  EXPECT_EQ(first.undefined.words(), "it is beyond all bounds at the best fit");
  EXPECT_EQ(first.intervals.front().lower, 8);
  EXPECT_TRUE(std::isinf(first.intervals.front().upper));
  EXPECT_LT(named(model, "N 2").value, 100);
  for (const Estimate& one : estimate(histories, {.plots = false}).answer)
    if (one.what.quantity == Quantity::number && std::isfinite(one.value)) {
      EXPECT_LT(one.value, 1000) << one.parameter;
    }
}

TEST(RobustDesign, PeriodsAreNeeded) {
  EXPECT_THROW(robust_counts(histories_from_counts({{"1011", 2}})), InputError);
}

}  // namespace
}  // namespace evet::models
