// Closed models against published data: snowshoe hares (Otis et al. 1978; Agresti 1994), Edinburgh taxicabs
// of known number 420 (Carothers 1973; Chao 1987), Zippin's (1958) removal catches, and a data set from a
// portable generator.
#include <gtest/gtest.h>

#include <cmath>

#include "check_values.h"
#include "gradient_check.h"
#include "models/closed/closure_test.h"
#include "models/closed/full_likelihood.h"
#include "models/closed/heterogeneity.h"

namespace evet::models {
namespace {

using nlohmann::json;
using testing::agrees;

ClosedCounts counts_of(const json& entry) {
  const json& data = entry.at("data");
  if (data.contains("history_counts")) return closed_counts(testing::histories_of(data.at("history_counts")));
  return closed_counts(data.at("f").get<std::vector<double>>(), data.at("n_j").get<std::vector<double>>());
}

std::vector<json> entries() {
  return {testing::check_entry("03_closed_models", "closed.hare"),
          testing::check_entry("03_closed_models", "closed.taxicabs_true_420"),
          testing::check_entry("10_simulation_truths", "realised.closed")};
}

std::vector<double> limits(const Estimate& estimate, const std::string& method) {
  for (const Interval& interval : estimate.intervals)
    if (interval.method.words() == method) return {interval.lower, interval.upper};
  ADD_FAILURE() << "no interval by " << method;
  return {};
}

std::vector<double> values(const std::vector<Estimate>& estimates, std::size_t from, std::size_t to) {
  std::vector<double> all;
  for (std::size_t i = from; i < to; ++i) all.push_back(estimates.at(i).value);
  return all;
}

void check_population(const json& entry, const json& expected, const FittedModel& model) {
  const Estimate& n = model.estimates.at(0);
  agrees(entry, expected, "N_real", n.value);
  if (expected.contains("loglik_kernel")) agrees(entry, expected, "loglik_kernel", model.log_likelihood);
  if (expected.contains("N_integer")) agrees(entry, expected, "N_integer", n.details.at("N_whole"));
  if (expected.contains("se_asymptotic_at_real_N"))
    agrees(entry, expected, "se_asymptotic_at_real_N", n.standard_error);
  if (expected.contains("se_asymptotic_at_integer_N"))
    agrees(entry, expected, "se_asymptotic_at_integer_N", n.details.at("se_at_whole"));
  if (expected.contains("se_observed_information"))
    agrees(entry, expected, "se_observed_information", n.details.at("se_observed_information"));
  if (expected.contains("profile95")) agrees(entry, expected, "profile95", limits(n, "profile likelihood"));
  if (expected.contains("lognormal95")) agrees(entry, expected, "lognormal95", limits(n, "log-normal"));
}

TEST(ClosedModels, ConstantAndOccasion) {
  for (const json& entry : entries()) {
    const json& expected = entry.at("expected");
    const FittedModel m0 = fit_constant(counts_of(entry));
    check_population(entry, expected.at("M0"), m0);
    agrees(entry, expected.at("M0"), "p", m0.estimates.at(1).value);
    const FittedModel mt = fit_occasion(counts_of(entry));
    check_population(entry, expected.at("Mt"), mt);
    agrees(entry, expected.at("Mt"), "p", values(mt.estimates, 1, mt.estimates.size()));
    if (expected.contains("lrt_M0_vs_Mt")) {
      agrees(entry, expected.at("lrt_M0_vs_Mt"), "chisq", 2 * (mt.log_likelihood - m0.log_likelihood));
      agrees(entry, expected.at("lrt_M0_vs_Mt"), "df", mt.parameters - m0.parameters);
    }
  }
}

TEST(ClosedModels, ResponseToCapture) {
  for (const json& entry : entries()) {
    const json& expected = entry.at("expected");
    if (!expected.contains("Mb")) continue;
    const FittedModel mb = fit_response(counts_of(entry));
    check_population(entry, expected.at("Mb"), mb);
    agrees(entry, expected.at("Mb"), "p", mb.estimates.at(1).value);
    agrees(entry, expected.at("Mb"), "c", mb.estimates.at(2).value);
    agrees(entry, expected.at("Mb"), "existence_criterion",
           mb.estimates.at(0).details.at("existence_criterion"));
  }
  const json entry = testing::check_entry("03_closed_models", "closed.hare");
  const json& expected = entry.at("expected").at("Mtb_logit_shift");
  const FittedModel mtb = fit_occasion_response(counts_of(entry));
  check_population(entry, expected, mtb);
  agrees(entry, expected, "p", values(mtb.estimates, 1, 7));
  agrees(entry, expected, "logit_shift_b", mtb.estimates.at(7).value);
}

TEST(ClosedModels, WhereTheResponseModelHasNoFiniteEstimateItSaysSo) {
  const json entry = testing::check_entry("03_closed_models", "closed.mb_failure");
  const std::vector<double> newly = entry.at("data").at("u_j");
  agrees(entry, entry.at("expected"), "existence_criterion", removal_criterion(newly));
  const FittedModel removal = fit_removal(newly);
  EXPECT_EQ(entry.at("expected").at("must_report_no_finite_estimate").at("value"),
            std::isinf(removal.estimates.at(0).value));
  EXPECT_FALSE(removal.estimates.at(0).undefined.empty());
  EXPECT_TRUE(std::isinf(removal.estimates.at(0).intervals.at(0).upper));
  EXPECT_GT(removal.estimates.at(0).intervals.at(0).lower, 27);
}

TEST(ClosedModels, Removal) {
  for (const char* id : {"closed.removal_three", "closed.removal_five"}) {
    const json entry = testing::check_entry("03_closed_models", id);
    const FittedModel model = fit_removal(entry.at("data").at("catches"));
    check_population(entry, entry.at("expected"), model);
    agrees(entry, entry.at("expected"), "p", model.estimates.at(1).value);
    double total = 0;
    for (const double caught : entry.at("data").at("catches")) total += caught;
    agrees(entry, entry.at("expected"), "total", total);
  }
}

TEST(ClosedModels, MixtureAndBetaBinomial) {
  for (const json& entry : entries()) {
    const json& all = entry.at("expected");
    if (!all.contains("Mh_beta_binomial")) continue;
    const FittedModel bb = fit_beta_binomial(counts_of(entry));
    const json& expected = all.at("Mh_beta_binomial");
    agrees(entry, expected, "N_real", bb.estimates.at(0).value);
    agrees(entry, expected, "se_observed_information", bb.estimates.at(0).standard_error);
    agrees(entry, expected, "mean_p", bb.estimates.at(1).value);
    agrees(entry, expected, "a_plus_b", bb.estimates.at(2).value);
    agrees(entry, expected, "loglik_kernel", bb.estimates.at(0).details.at("log_likelihood_of_frequencies"));
    agrees(entry, expected, "profile95", limits(bb.estimates.at(0), "profile likelihood"));
    const FittedModel two = fit_mixture(counts_of(entry));
    const json& wanted = all.at("Mh_two_point");
    agrees(entry, wanted, "N_real", two.estimates.at(0).value);
    agrees(entry, wanted, "se_observed_information", two.estimates.at(0).standard_error);
    agrees(entry, wanted, "weight_low_group", two.estimates.at(1).value);
    agrees(entry, wanted, "p_low", two.estimates.at(2).value);
    agrees(entry, wanted, "p_high", two.estimates.at(3).value);
    agrees(entry, wanted, "loglik_kernel", two.estimates.at(0).details.at("log_likelihood_of_frequencies"));
  }
}

TEST(ClosedModels, JackknifeBoundsAndCoverage) {
  for (const json& entry : entries()) {
    const ClosedCounts counts = counts_of(entry);
    const json& j = entry.at("expected").at("Mh_jackknife");
    const Jackknife orders = jackknife_orders(counts);
    agrees(entry, j, "N_order_1_to_5", orders.n);
    agrees(entry, j, "se_order_1_to_5", orders.standard_error);
    agrees(entry, j, "T_k", orders.test);
    agrees(entry, j, "P_k", orders.p_value);
    agrees(entry, j, "selected_order", orders.selected);
    const Estimate selected = jackknife(counts);
    agrees(entry, j, "N_selected", selected.value);
    agrees(entry, j, "se_selected", selected.standard_error);
    agrees(entry, j, "N_interpolated", orders.n_interpolated);
    agrees(entry, j, "se_interpolated", orders.se_interpolated);
    agrees(entry, j, "lognormal95_selected", limits(selected, "log-normal"));
    const json& c = entry.at("expected").at("Mh_chao");
    const Estimate classic = chao_1987(counts);
    agrees(entry, c, "chao1987", classic.value);
    agrees(entry, c, "chao1987_se", classic.standard_error);
    agrees(entry, c, "chao1987_lognormal95", limits(classic, "log-normal"));
    agrees(entry, c, "finite_t", chao_occasions(counts).value);
    agrees(entry, c, "finite_t_se", chao_occasions(counts).standard_error);
    agrees(entry, c, "bias_corrected", chao_bias_corrected(counts).value);
    agrees(entry, c, "bias_corrected_se", chao_bias_corrected(counts).standard_error);
    const json& s = entry.at("expected").at("sample_coverage");
    std::vector<double> coverage, over, gamma_h, n_h, gamma_th, n_th;
    for (int which = 1; which <= 3; ++which) {
      const Estimate h = sample_coverage(counts, which, false), th = sample_coverage(counts, which, true);
      coverage.push_back(h.details.at("coverage"));
      over.push_back(h.details.at("seen_over_coverage"));
      gamma_h.push_back(h.details.at("gamma2"));
      n_h.push_back(h.value);
      gamma_th.push_back(th.details.at("gamma2"));
      n_th.push_back(th.value);
      EXPECT_GT(h.standard_error, 0);
    }
    agrees(entry, s, "sample_coverage_1_2_3", coverage);
    agrees(entry, s, "S_over_C", over);
    agrees(entry, s, "gamma2_Mh", gamma_h);
    agrees(entry, s, "N_Mh", n_h);
    agrees(entry, s, "gamma2_Mth", gamma_th);
    agrees(entry, s, "N_Mth", n_th);
  }
}

TEST(ClosedModels, GradientsAreThoseOfDifferences) {
  const ClosedCounts counts = counts_of(entries()[0]);
  for (const FittedModel& model :
       {fit_constant(counts), fit_occasion(counts), fit_response(counts), fit_occasion_response(counts),
        fit_mixture(counts), fit_beta_binomial(counts), fit_occasion_mixture(counts),
        fit_response_mixture(counts), fit_removal({65, 43, 34, 18, 12})}) {
    testing::expect_gradient_of_differences(model, 0.1, 1e-7);
  }
}

TEST(ClosedModels, LargerModelsNeverFitWorse) {
  const ClosedCounts counts = counts_of(entries()[0]);
  const double m0 = fit_constant(counts).log_likelihood;
  EXPECT_GE(fit_occasion(counts).log_likelihood, m0 - 1e-6);
  EXPECT_GE(fit_mixture(counts).log_likelihood, m0 - 1e-6);
  EXPECT_GE(fit_beta_binomial(counts).log_likelihood, m0 - 1e-6);
  EXPECT_GE(fit_occasion_mixture(counts).log_likelihood, fit_occasion(counts).log_likelihood - 1e-6);
  EXPECT_GE(fit_occasion_mixture(counts).log_likelihood, fit_mixture(counts).log_likelihood - 1e-6);
  EXPECT_GE(fit_response_mixture(counts).log_likelihood, fit_mixture(counts).log_likelihood - 1e-6);
  EXPECT_GE(fit_response_mixture(counts).log_likelihood, fit_response(counts).log_likelihood - 1e-6);
}

TEST(ClosedModels, AnimalsLostOnCaptureAreNotExpectedAgain) {
  // All of 40 animals taken out when first caught: only removal information is left, so M0 equals removal.
  CaptureHistories histories = histories_from_counts({{"1000", 20}, {"0100", 11}, {"0010", 6}, {"0001", 3}});
  histories.lost.assign(40, 1);
  const FittedModel m0 = fit_constant(closed_counts(histories));
  const FittedModel removal = fit_removal({20, 11, 6, 3});
  EXPECT_NEAR(m0.estimates[0].value, removal.estimates[0].value, 1e-4);
}

TEST(ClosureTest, SpansOfALeavingPopulationAreTooShort) {
  EXPECT_LT(closure_test(histories_from_counts({{"1100000000", 20}, {"0000011000", 20}, {"0000000110", 10}}))
                .p_value,
            0.001);
  const ClosureTest fair = closure_test(testing::histories_of(entries()[0].at("data").at("history_counts")));
  EXPECT_GT(fair.p_value, 0.05);
  EXPECT_EQ(fair.animals, 41);  // 68 less 25 caught once and 2 caught every time
  EXPECT_EQ(closure_test(histories_from_counts({{"10", 3}})).p_value, 1);
}

}  // namespace
}  // namespace evet::models
