// Estimators at the counts that are expected under a known truth: each must give the truth back, or the limit
// it is known to go to, with the large-sample error. And the counts of the realised data sets.
#include <gtest/gtest.h>

#include <Eigen/LU>
#include <cmath>

#include "check_values.h"
#include "models/closed/catch_groups.h"
#include "models/closed/conditional.h"
#include "models/closed/full_likelihood.h"
#include "models/closed/heterogeneity.h"
#include "models/closed/two_sample.h"
#include "models/fit/tape.h"
#include "models/open/entry_models.h"
#include "models/open/jolly_seber.h"
#include "models/open/survival.h"
#include "tests/models/named_estimate.h"

namespace evet::models {
namespace {

using nlohmann::json;
using testing::agrees;
using testing::check_entry;
using testing::named;

json truth(const std::string& id) {
  return check_entry("10_simulation_truths", id);
}

std::vector<double> to_vector(const Eigen::VectorXd& x) {
  return {x.data(), x.data() + x.size()};
}

double sum_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum;
}

ClosedCounts expected_counts(const std::vector<CatchGroup>& groups, double n) {
  const CatchExpectation expected = expected_catches(groups, n);
  ClosedCounts counts;
  counts.occasions = static_cast<int>(expected.caught.size());
  counts.seen = sum_of(expected.frequencies);
  counts.caught = expected.caught;
  counts.newly = expected.newly;
  counts.frequencies = expected.frequencies;
  counts.lost_before.assign(expected.caught.size(), 0.0);
  for (int k = 1; k <= counts.occasions; ++k)
    counts.classes.push_back({k, counts.occasions, expected.frequencies[static_cast<std::size_t>(k) - 1]});
  return counts;
}

TEST(Truths, ClosedModels) {
  for (const char* id :
       {"truth.two_sample", "truth.two_sample_2", "truth.M0", "truth.M0_2", "truth.Mt", "truth.Mt_2"}) {
    const json entry = truth(id), &data = entry.at("data");
    std::vector<double> p;
    if (data.contains("p1"))
      p = {data.at("p1"), data.at("p2")};
    else if (data.contains("occasions"))
      p.assign(data.at("occasions").get<std::size_t>(), data.at("p"));
    else
      p = data.at("p").get<std::vector<double>>();
    const double n = data.at("N");
    agrees(entry, entry.at("expected"), "asymptotic_se_N", large_sample_se(n, p));
    const ClosedCounts counts = expected_counts({{1, p, p}}, n);
    if (entry.at("expected").contains("expected_distinct"))
      agrees(entry, entry.at("expected"), "expected_distinct", counts.seen);
    // With a thousand times the animals the terms of small samples are gone.
    EXPECT_NEAR(fit_occasion(expected_counts({{1, p, p}}, 1000 * n)).estimates[0].value / 1000, n, 0.01)
        << id;
  }
  const json entry = truth("truth.Mb"), &data = entry.at("data");
  const auto t = data.at("occasions").get<std::size_t>();
  agrees(entry, entry.at("expected"), "asymptotic_se_N",
         large_sample_se_response(data.at("N"), data.at("p"), static_cast<double>(t)));
  const ClosedCounts counts = expected_counts(
      {{1, std::vector<double>(t, data.at("p")), std::vector<double>(t, data.at("c"))}}, data.at("N"));
  agrees(entry, entry.at("expected"), "expected_first_captures", counts.newly);
  EXPECT_NEAR(fit_response(counts).estimates[0].value, 300, 2);
}

TEST(Truths, UnequalCatchability) {
  const json entry = truth("truth.Mh"), &data = entry.at("data"), &expected = entry.at("expected");
  const auto t = data.at("occasions").get<std::size_t>();
  const double share = data.at("share_group_1"), low = data.at("p")[0], high = data.at("p")[1];
  const std::vector<CatchGroup> groups = {
      {share, std::vector<double>(t, low), std::vector<double>(t, low)},
      {1 - share, std::vector<double>(t, high), std::vector<double>(t, high)}};
  const ClosedCounts counts = expected_counts(groups, data.at("N"));
  agrees(entry, expected, "expected_frequencies", counts.frequencies);
  agrees(entry, expected, "expected_distinct", counts.seen);
  agrees(entry, expected, "limit_chao1987", chao_1987(counts).value);
  agrees(entry, expected, "limit_chao_finite_t", chao_occasions(counts).value);
  agrees(entry, expected, "limit_jackknife_orders", jackknife_orders(counts).n);
  // With a million times the animals the terms of small samples are gone.
  const ClosedCounts many = expected_counts(groups, 1e6 * data.at("N").get<double>());
  agrees(entry, expected, "limit_M0", fit_constant(many, {.profile = false}).estimates[0].value / 1e6);
  // The information at the truth itself, on the scale ln(N - seen), and where many animals lead.
  const FittedModel mixture = fit_mixture(counts, {.profile = false});
  const auto logit = [](double p) { return std::log(p / (1 - p)); };
  const double unseen = data.at("N").get<double>() - counts.seen;
  const Eigen::Vector4d at(std::log(unseen), logit(share), logit(low), logit(high));
  const Eigen::MatrixXd information = hessian_by_differences(mixture.likelihood.minus_log_likelihood, at);
  agrees(entry, expected, "asymptotic_se_N_two_point_likelihood",
         unseen * std::sqrt(information.inverse()(0, 0)));
  const FittedModel far = fit_mixture(expected_counts(groups, 4e6), {.profile = false});
  EXPECT_NEAR(far.estimates[0].value / 1e4, 400, 0.1);
}

// Expected release table: newly marked animals, and those caught again and let go.
MArray expected_releases(const std::vector<double>& newly, const Eigen::MatrixXd& cells) {
  const Eigen::Index n = cells.rows();
  MArray array{Eigen::VectorXd::Zero(n), Eigen::MatrixXd::Zero(n, n + 1), Eigen::VectorXd::Zero(n + 1),
               Eigen::VectorXd::Zero(n + 1)};
  for (std::size_t i = 0; i < newly.size(); ++i) array.newly[static_cast<Eigen::Index>(i)] = newly[i];
  for (Eigen::Index i = 0; i <= n; ++i) {
    array.caught[i] = array.newly[i] + array.next.col(i).sum();
    if (i == n) break;
    array.released[i] = array.caught[i];
    array.next.row(i) = array.released[i] * cells.row(i);
  }
  return array;
}

void check_table(const json& entry, const MArray& array) {
  const json& rows = entry.at("expected").at("expected_m_array");
  for (std::size_t i = 0; i < rows.at("value").size(); ++i) {
    const json wanted = {
        {"expected_m_array", {{"value", rows.at("value")[i]}, {"tol_rel", rows.at("tol_rel")}}}};
    agrees(entry, wanted, "expected_m_array",
           to_vector(array.next.row(static_cast<Eigen::Index>(i)).tail(array.next.cols() - 1)));
  }
}

TEST(Truths, Survival) {
  for (const char* id : {"truth.cjs_constant", "truth.cjs_constant_2", "truth.cjs_time"}) {
    const json entry = truth(id), &data = entry.at("data");
    const std::vector<double> phi = data.at("phi"), p = data.at("p_2_to_k");
    const MArray array = expected_releases(data.at("newly_marked"), release_cells(phi, p));
    agrees(entry, entry.at("expected"), "expected_releases", to_vector(array.released));
    check_table(entry, array);
    const bool by_time = std::string(id) == "truth.cjs_time";
    const FittedModel model = fit_survival(array, by_time, by_time);
    std::vector<double> values, errors;
    for (const Estimate& estimate : model.estimates) {
      if (!estimate.undefined.empty()) continue;  // the last survival and recapture, given by their product
      values.push_back(estimate.value);
      errors.push_back(estimate.standard_error);
    }
    const json reached = {
        {"truth", {{"value", entry.at("expected").at("truth").at("value")}, {"tol_abs", 1e-6}}}};
    agrees(entry, reached, "truth", values);
    agrees(entry, entry.at("expected"), "asymptotic_se", errors);
  }
}

TEST(Truths, EntryModels) {
  const json entry = truth("truth.super"), &data = entry.at("data");
  const std::vector<double> entries = data.at("entry_probabilities");
  const std::size_t k = entries.size();
  const double n = data.at("N_super"), phi = data.at("phi"), p = data.at("p");
  std::vector<double> newly;
  double unmarked = 0;
  for (const double b : entries) {
    unmarked = unmarked * (1 - p) * phi + n * b;
    newly.push_back(unmarked * p);
  }
  // Before the first entry nothing survives, so the line above starts with the first entrants alone.
  const Eigen::MatrixXd cells = release_cells(std::vector<double>(k - 1, phi), std::vector<double>(k - 1, p));
  const MArray array = expected_releases(newly, cells);
  agrees(entry, entry.at("expected"), "expected_u", newly);
  agrees(entry, entry.at("expected"), "expected_n", to_vector(array.caught));
  check_table(entry, array);
  std::vector<double> many = newly;
  for (double& u : many) u *= 1e4;
  const FittedModel model = fit_super_population(expected_releases(many, cells), {}, {.profile = false});
  EXPECT_NEAR(model.estimates[0].value / 1e4, n, 0.01);
  agrees(entry, entry.at("expected"), "asymptotic_se_N_phi_p",
         {model.estimates[0].standard_error / 100, named(model, "survival").standard_error * 100,
          named(model, "capture").standard_error * 100});

  const json growth = truth("truth.growth"), &its = growth.at("data");
  const double lambda = its.at("lambda"), survival = its.at("phi"), capture = its.at("p");
  const auto occasions = its.at("occasions").get<std::size_t>();
  std::vector<double> first;
  double there = its.at("N_first_mean"), fresh = there;
  for (std::size_t i = 0; i < occasions; ++i) {
    first.push_back(fresh * capture);
    fresh = fresh * (1 - capture) * survival + there * (lambda - survival);
    there *= lambda;
  }
  const MArray table = expected_releases(first, release_cells(std::vector<double>(occasions - 1, survival),
                                                              std::vector<double>(occasions - 1, capture)));
  agrees(growth, growth.at("expected"), "expected_u", first);
  agrees(growth, growth.at("expected"), "expected_n", to_vector(table.caught));
  const FittedModel fitted = fit_growth(table, {});
  EXPECT_NEAR(named(fitted, "growth rate").value, lambda, 1e-6);
  agrees(growth, growth.at("expected"), "asymptotic_se_phi_p_lambda",
         {named(fitted, "survival").standard_error, named(fitted, "capture").standard_error,
          named(fitted, "growth rate").standard_error});
}

TEST(Realised, Counts) {
  const json closed = truth("realised.closed");
  const ClosedCounts counts = closed_counts(testing::histories_of(closed.at("data").at("history_counts")));
  agrees(closed, closed.at("expected"), "S", counts.seen);
  agrees(closed, closed.at("expected"), "n_j", counts.caught);
  agrees(closed, closed.at("expected"), "u_j", counts.newly);
  agrees(closed, closed.at("expected"), "f", counts.frequencies);
  const json open = truth("realised.open");
  const CaptureHistories histories = testing::histories_of(open.at("data").at("history_counts"));
  const MArray array = m_array(histories);
  agrees(open, open.at("expected"), "animals_caught", static_cast<double>(histories.animal_count()));
  agrees(open, open.at("expected"), "n", to_vector(array.caught));
  agrees(open, open.at("expected"), "u", to_vector(array.newly));
  const json& rows = open.at("expected").at("m_array");
  for (std::size_t i = 0; i < rows.at("value").size(); ++i) {
    const json wanted = {{"m_array", {{"value", rows.at("value")[i]}, {"tol_abs", 0}}}};
    agrees(open, wanted, "m_array",
           to_vector(array.next.row(static_cast<Eigen::Index>(i)).tail(array.next.cols() - 1)));
  }
}

// Independent lists by log-linear models are the conditional model by occasion: Fienberg (1972),
// Biometrika 59.
TEST(Independence, IsTheConditionalModelByOccasion) {
  for (const auto& [file, id, prefix] : {std::tuple{"03_closed_models", "closed.hare", ""},
                                         {"01_two_occasion", "two.three_lists_true_545", "independence_"}}) {
    const json entry = check_entry(file, id);
    const json expected = *prefix ? entry.at("expected") : entry.at("expected").at("loglinear_independence");
    const CaptureHistories histories = testing::histories_of(entry.at("data").at("history_counts"));
    const FittedModel model = fit_conditional(histories, {.occasion = true});
    double saturated = 0;
    for (const auto& [history, count] :
         entry.at("data").at("history_counts").get<std::map<std::string, double>>())
      if (count > 0) saturated += count * std::log(count / static_cast<double>(histories.animal_count()));
    const std::string name = prefix;
    agrees(entry, expected, name + "deviance", 2 * (saturated - model.log_likelihood));
    agrees(entry, expected, name + "df",
           std::pow(2, static_cast<double>(histories.occasion_count())) - 2 - model.parameters);
    agrees(entry, expected, name + "N", model.estimates[0].value);
  }
}

// The conditional model without covariates rests on the capture frequencies alone, so published frequencies
// suffice for histories.
TEST(Conditional, TaxicabsFromFrequencies) {
  const json entry = check_entry("03_closed_models", "closed.taxicabs_true_420");
  const std::vector<int> f = entry.at("data").at("f");
  std::map<std::string, int> histories;
  for (std::size_t k = 1; k <= f.size(); ++k)
    if (f[k - 1] > 0) histories[std::string(k, '1') + std::string(f.size() - k, '0')] = f[k - 1];
  const FittedModel model = fit_conditional(histories_from_counts(histories), {});
  const json& expected = entry.at("expected").at("conditional_M0");
  agrees(entry, expected, "N", model.estimates[0].value);
  agrees(entry, expected, "se", model.estimates[0].standard_error);
  agrees(entry, expected, "p_star", model.estimates[0].details.at("p_star"));
  agrees(entry, expected, "loglik", model.log_likelihood);
}

// Published examples beyond the check values, data and results from memory.
TEST(FromMemory, PetersenAndRemoval) {
  // Seber (1982), The Estimation of Animal Abundance, p. 60 (from memory): 500 marked, 150 caught, 15 of them
  // marked gives Petersen 5000; Chapman 501 * 151 / 16 - 1 = 4727.2.
  EXPECT_NEAR(lincoln_petersen({500, 150, 15}).value, 5000, 1e-9);
  EXPECT_NEAR(chapman({500, 150, 15}).value, 4727.1875, 1e-4);
  // Zippin (1958) / Seber (1982) p. 312 (from memory): removal with catches 165, 101, 54
  // gives N about 400, p about 0.42; the exact maximum lies at 394.5.
  const FittedModel removal = fit_removal({165, 101, 54});
  EXPECT_NEAR(removal.estimates[0].value, 394.5, 1);
  EXPECT_NEAR(removal.estimates[1].value, 0.42, 0.02);
}

// Black-kneed capsids: Jolly (1965), Biometrika 52:225-247, tables 2-4, 13 samples with losses on capture
// (data and printed results from memory; the z that they must satisfy come out as printed).
TEST(FromMemory, JollysCapsids) {
  const std::vector<double> n = {54, 146, 169, 209, 220, 209, 250, 176, 172, 127, 123, 120, 142},
                            m = {0, 10, 37, 56, 53, 77, 112, 86, 110, 84, 77, 72, 95},
                            released = {54, 143, 164, 202, 214, 207, 243, 175, 169, 126, 120, 120},
                            r = {24, 80, 70, 71, 109, 101, 108, 99, 70, 58, 44, 35};
  // Any table with these sums gives the same estimates: recaptures are taken from the oldest release first.
  std::vector<double> left = r, newly;
  std::vector<std::vector<double>> next(12, std::vector<double>(12, 0.0));
  for (std::size_t j = 0; j < 13; ++j) {
    newly.push_back(n[j] - m[j]);
    double wanted = m[j];
    for (std::size_t i = 0; i < j; ++i) {
      const double taken = std::min(wanted, left[i]);
      next[i][j - 1] = taken;
      left[i] -= taken;
      wanted -= taken;
    }
  }
  const JollySeber js = jolly_seber(m_array(released, next, newly));
  const std::vector<double> z = {14, 57, 71, 89, 121, 110, 132, 121, 107, 88, 60};
  const std::vector<double> numbers = {511.2, 779.1, 963.0, 945.3, 882.2, 802.5,
                                       653.6, 628.8, 478.5, 506.4, 462.8};
  const std::vector<double> survival = {0.649, 1.015, 0.867, 0.564, 0.836, 0.790,
                                        0.651, 0.985, 0.686, 0.884, 0.771};
  EXPECT_EQ(js.z, z);
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    EXPECT_NEAR(js.N[i] / numbers[i], 1, 0.003) << i + 2 << ": " << js.N[i];  // printed from rounded ratios
    EXPECT_NEAR(js.phi[i], survival[i], 0.002) << i + 1 << ": " << js.phi[i];
  }
}

// Deer mice: Otis et al. (1978), Wildl. Monogr. 62, p. 32 and 93 (from memory): 38 animals over 6 mornings,
// first captures 15 8 6 3 3 3 and 25 ... recaptures; model of response gives N 41, SE 3.0.
TEST(FromMemory, DeerMiceAnswerToCapture) {
  const FittedModel removal = fit_removal({15, 8, 6, 3, 3, 3});
  EXPECT_NEAR(removal.estimates[0].details.at("N_whole"), 41, 0.5);
  EXPECT_NEAR(removal.estimates[0].details.at("se_at_whole"), 3.0, 0.15);
}

}  // namespace
}  // namespace evet::models
