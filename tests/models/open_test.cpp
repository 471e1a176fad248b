// Open models against the European dipper data of Marzolin (1988) as worked by Lebreton et al. (1992), and
// against data sets and truths from a portable generator.
#include <gtest/gtest.h>

#include <algorithm>

#include <cmath>

#include "check_values.h"
#include "gradient_check.h"
#include "models/base/input_error.h"
#include "models/base/random.h"
#include "models/choice/information.h"
#include "models/estimate.h"
#include "models/open/entry_models.h"
#include "models/open/fit_components.h"
#include "models/open/jolly_seber.h"
#include "models/open/survival.h"
#include "tests/models/named_estimate.h"

namespace evet::models {
namespace {

using nlohmann::json;
using testing::agrees;
using testing::check_entry;
using testing::named;

MArray array_of(const json& data) {
  if (data.contains("history_counts")) return m_array(testing::histories_of(data.at("history_counts")));
  return m_array(data.at("R").get<std::vector<double>>(),
                 data.at("m_array").get<std::vector<std::vector<double>>>(), data.at("u_first_captures"));
}

std::vector<double> series(const FittedModel& model, const std::string& name, int from, int to,
                           double Estimate::*member = &Estimate::value) {
  std::vector<double> all;
  for (int i = from; i <= to; ++i) all.push_back(named(model, name + " " + std::to_string(i)).*member);
  return all;
}

void check_fit(const json& entry, const json& expected, const FittedModel& model) {
  agrees(entry, expected, "minus2loglik", -2 * model.log_likelihood);
  agrees(entry, expected, "K", model.parameters);
  agrees(entry, expected, "AIC", -2 * model.log_likelihood + 2 * model.parameters);
  agrees(entry, expected, "n_effective", model.sample_size);
  agrees(entry, expected, "AICc", aicc(model.log_likelihood, model.parameters, model.sample_size));
}

TEST(Survival, DipperConstant) {
  const json entry = check_entry("04_open_survival", "cjs.dipper_constant");
  const json& expected = entry.at("expected");
  const MArray array = array_of(entry.at("data"));
  const FittedModel model = fit_survival(array, false, false);
  check_fit(entry, expected, model);
  agrees(entry, expected, "deviance", 2 * (saturated_log_likelihood(array) - model.log_likelihood));
  agrees(entry, expected, "phi", model.estimates[0].value);
  agrees(entry, expected, "se_phi", model.estimates[0].standard_error);
  agrees(entry, expected, "p", model.estimates[1].value);
  agrees(entry, expected, "se_p", model.estimates[1].standard_error);
  const auto limits = [&](std::size_t i) {
    const std::vector<Interval>& all = model.estimates[i].intervals;
    const auto by_error = std::find_if(all.begin(), all.end(), [](const Interval& one) {
      return one.method.words() == "normal on the logit scale";
    });
    return std::vector<double>{by_error->lower, by_error->upper};
  };
  agrees(entry, expected, "phi_logit95", limits(0));
  agrees(entry, expected, "p_logit95", limits(1));
}

TEST(Survival, DipperByOccasion) {
  const json entry = check_entry("04_open_survival", "cjs.dipper_phi_t");
  const MArray array = array_of(entry.at("data"));
  const FittedModel phi_t = fit_survival(array, true, false);
  check_fit(entry, entry.at("expected"), phi_t);
  agrees(entry, entry.at("expected"), "deviance",
         2 * (saturated_log_likelihood(array) - phi_t.log_likelihood));
  agrees(entry, entry.at("expected"), "phi", series(phi_t, "survival", 1, 6));
  agrees(entry, entry.at("expected"), "se_phi", series(phi_t, "survival", 1, 6, &Estimate::standard_error));
  agrees(entry, entry.at("expected"), "p", named(phi_t, "recapture").value);
  agrees(entry, entry.at("expected"), "se_p", named(phi_t, "recapture").standard_error);
  const json other = check_entry("04_open_survival", "cjs.dipper_p_t");
  const FittedModel p_t = fit_survival(array, false, true);
  check_fit(other, other.at("expected"), p_t);
  agrees(other, other.at("expected"), "deviance", 2 * (saturated_log_likelihood(array) - p_t.log_likelihood));
  agrees(other, other.at("expected"), "phi", named(p_t, "survival").value);
  agrees(other, other.at("expected"), "se_phi", named(p_t, "survival").standard_error);
  agrees(other, other.at("expected"), "p", series(p_t, "recapture", 2, 7));
  agrees(other, other.at("expected"), "se_p", series(p_t, "recapture", 2, 7, &Estimate::standard_error));
}

TEST(Survival, WhatCannotBeToldApartIsNamed) {
  const json entry = check_entry("04_open_survival", "cjs.dipper_constant");
  const FittedModel model = fit_survival(array_of(entry.at("data")), true, true);
  EXPECT_EQ(model.parameters, 11);
  EXPECT_EQ(model.fit.not_estimable,
            (std::vector<Parameter>{{Quantity::survival, 6}, {Quantity::recapture, 7}}));
  EXPECT_FALSE(named(model, "survival 6").undefined.empty());
  EXPECT_NEAR(named(model, "survival x recapture, last").value, 52.0 / 98, 1e-6);
  EXPECT_GT(named(model, "survival x recapture, last").standard_error, 0.01);
}

TEST(Survival, RealisedDataSetWithAnEstimateAtTheBoundary) {
  const json entry = check_entry("10_simulation_truths", "realised.open");
  const MArray array = array_of(entry.at("data"));
  const json& constant = entry.at("expected").at("cjs_constant");
  const FittedModel both = fit_survival(array, false, false);
  check_fit(entry, constant, both);
  agrees(entry, constant, "phi_p", {both.estimates[0].value, both.estimates[1].value});
  agrees(entry, constant, "se", {both.estimates[0].standard_error, both.estimates[1].standard_error});
  const json& by_time = entry.at("expected").at("cjs_phi_t_p_constant");
  const FittedModel phi_t = fit_survival(array, true, false);
  check_fit(entry, by_time, phi_t);
  std::vector<double> values = series(phi_t, "survival", 1, 5),
                      errors = series(phi_t, "survival", 1, 5, &Estimate::standard_error);
  values.push_back(named(phi_t, "recapture").value);
  errors.push_back(named(phi_t, "recapture").standard_error);
  agrees(entry, by_time, "phi_then_p", values);
  agrees(entry, by_time, "se", errors);
  EXPECT_EQ(phi_t.fit.at_boundary, (std::vector<Parameter>{{Quantity::survival, 5}}));
  const Interval profile = named(phi_t, "survival 5").intervals[0];
  EXPECT_GT(profile.lower, 0.4);
  EXPECT_EQ(profile.upper, 1);
}

TEST(JollySeber, ClosedForms) {
  for (const auto& [file, id] :
       {std::pair{"04_open_survival", "js.dipper"}, {"10_simulation_truths", "realised.open"}}) {
    const json entry = check_entry(file, id);
    const json expected = entry.at("expected").contains("jolly_seber")
                              ? entry.at("expected").at("jolly_seber")
                              : entry.at("expected");
    const JollySeber js = jolly_seber(array_of(entry.at("data")));
    agrees(entry, expected, "m", js.m);
    agrees(entry, expected, "r", js.r);
    agrees(entry, expected, "z", js.z);
    agrees(entry, expected, "alpha", js.alpha);
    agrees(entry, expected, "M", js.M);
    agrees(entry, expected, "N", js.N);
    agrees(entry, expected, "phi", js.phi);
    agrees(entry, expected, "p", js.p);
    agrees(entry, expected, "B", js.B);
    agrees(entry, expected, "se_N_given_N", js.se_N);
    agrees(entry, expected, "se_phi_given_phi", js.se_phi_sampling);
    agrees(entry, expected, "se_phi_total", js.se_phi);
    agrees(entry, expected, "se_B", js.se_B);
    agrees(entry, expected, "seber_M", js.adjusted_M);
    agrees(entry, expected, "seber_N", js.adjusted_N);
    agrees(entry, expected, "seber_phi", js.adjusted_phi);
    agrees(entry, expected, "seber_B", js.adjusted_B);
  }
}

TEST(FitComponents, Dipper) {
  const json entry = check_entry("04_open_survival", "gof.dipper");
  const json& expected = entry.at("expected");
  const std::vector<Component> components = missed_components(array_of(entry.at("data")));
  ASSERT_EQ(components.size(), 4u);
  ChiSquare plain, later;
  for (std::size_t c = 0; c < 4; ++c) {
    const json& wanted = expected.at("i" + std::to_string(c + 2));
    agrees(entry, wanted, "table_caught_at_i", components[c].upper);
    agrees(entry, wanted, "table_not_caught_at_i", components[c].lower);
    agrees(entry, wanted, "chisq_uncollapsed", components[c].plain.chi_square);
    agrees(entry, wanted, "df_uncollapsed", components[c].plain.degrees_of_freedom);
    agrees(entry, wanted, "chisq_next_vs_later", components[c].next_vs_later.chi_square);
    agrees(entry, wanted, "df_next_vs_later", components[c].next_vs_later.degrees_of_freedom);
    plain.chi_square += components[c].plain.chi_square;
    plain.degrees_of_freedom += components[c].plain.degrees_of_freedom;
    later.chi_square += components[c].next_vs_later.chi_square;
    later.degrees_of_freedom += components[c].next_vs_later.degrees_of_freedom;
    EXPECT_EQ(components[c].pooled.degrees_of_freedom, 0)
        << "one to three animals missed are too few to test on";
  }
  agrees(entry, expected.at("total_uncollapsed"), "chisq", plain.chi_square);
  agrees(entry, expected.at("total_uncollapsed"), "df", plain.degrees_of_freedom);
  agrees(entry, expected.at("total_next_vs_later"), "chisq", later.chi_square);
  agrees(entry, expected.at("total_next_vs_later"), "df", later.degrees_of_freedom);
}

// Histories of an open population; `shy` animals are never caught twice running.
CaptureHistories open_histories(int animals, double survival, double recapture, std::uint64_t seed,
                                bool copies = false) {
  Random random(seed);
  CaptureHistories histories;
  for (int j = 0; j < 7; ++j) histories.occasions.push_back(std::to_string(j + 1));
  for (int i = 0; i < animals; ++i) {
    std::vector<std::uint8_t> row(7, 0);
    const int first = static_cast<int>(random.below(6));
    row[static_cast<std::size_t>(first)] = 1;
    for (std::size_t j = static_cast<std::size_t>(first) + 1; j < 7 && random.chance(survival); ++j)
      row[j] = random.chance(recapture) ? 1 : 0;
    for (int copy = 0; copy < (copies ? 3 : 1); ++copy) {
      histories.animals.push_back(std::to_string(histories.animals.size()));
      histories.groups["sex"].push_back(i % 2 ? "male" : "female");
      histories.covariates["svl_mm"].push_back(60 + i % 20);
      histories.caught.insert(histories.caught.end(), row.begin(), row.end());
    }
  }
  return histories;
}

TEST(FitComponents, OverdispersionIsSeenInTripletsAndNotInLoners) {
  const double loners = fit_test(open_histories(900, 0.7, 0.5, 3)).overdispersion;
  const double triplets = fit_test(open_histories(300, 0.7, 0.5, 4, true)).overdispersion;
  EXPECT_LT(loners, 1.8);
  EXPECT_GT(triplets, 1.8);
  const double bootstrap = bootstrap_overdispersion(m_array(open_histories(300, 0.7, 0.5, 4, true)), 30, 5);
  EXPECT_GT(bootstrap, 1.5);
  EXPECT_LT(bootstrap, 6);
}

TEST(Survival, GroupsAndCovariates) {
  const CaptureHistories histories = open_histories(400, 0.7, 0.5, 11);
  Terms by_sex, by_sex_and_time, by_length, constant, by_time;
  by_sex.groups = by_sex_and_time.groups = {"sex"};
  by_sex_and_time.group_by_occasion = true;
  by_length.covariates = {"svl_mm"};
  by_time.occasion = true;
  const FittedModel sexes = fit_survival(histories, by_sex, by_sex);
  double sum = 0;
  std::vector<double> separate;
  for (const char* sex : {"female", "male"}) {
    std::vector<std::size_t> chosen;
    for (std::size_t i = 0; i < histories.animal_count(); ++i)
      if (histories.groups.at("sex")[i] == sex) chosen.push_back(i);
    const FittedModel one = fit_survival(select_animals(histories, chosen), constant, constant);
    sum += one.log_likelihood;
    separate.push_back(one.estimates[0].value);
  }
  EXPECT_NEAR(sexes.log_likelihood, sum, 1e-6) << "groups apart are separate fits";
  EXPECT_NEAR(named(sexes, "survival: female").value, separate[0], 1e-5);
  EXPECT_NEAR(named(sexes, "survival: male").value, separate[1], 1e-5);
  EXPECT_GE(fit_survival(histories, by_sex_and_time, constant).log_likelihood,
            fit_survival(histories, by_sex, constant).log_likelihood - 1e-7);
  const FittedModel length = fit_survival(histories, by_length, constant);
  const Estimate& slope = named(length, "survival: slope on svl_mm");
  EXPECT_LT(std::abs(slope.value), 3.5 * slope.standard_error);
  EXPECT_NEAR(fit_survival(histories, constant, constant).log_likelihood,
              fit_survival(m_array(histories), false, false).log_likelihood, 1e-8);
  Terms response;
  response.response = true;
  EXPECT_THROW(fit_survival(histories, response, constant), InputError);
  for (const auto& [s, r] : {std::pair{by_sex_and_time, by_time}, {by_length, by_sex}}) {
    const FittedModel model = fit_survival(histories, s, r);
    testing::expect_gradient_of_differences(model, 0.3, 1e-7);
  }
}

TEST(Survival, AGroupAtTheEndOfItsRangeIsNotCertain) {
  // Every female was seen to the last occasion; males were lost on the way.
  CaptureHistories histories =
      histories_from_counts({{"1111", 9}, {"1011", 4}, {"1101", 5}, {"1100", 6}, {"1000", 7}, {"1010", 3}});
  for (std::size_t i = 0; i < histories.animal_count(); ++i)
    histories.groups["sex"].push_back(histories.was_caught(i, 3) ? "female" : "male");
  Terms by_sex, constant;
  by_sex.groups = {"sex"};
  const FittedModel model = fit_survival(histories, by_sex, constant);
  const Estimate female = named(model, "survival: female");
  EXPECT_EQ(female.value, 1);
  EXPECT_EQ(female.intervals.front().method.words(), "profile likelihood");
  EXPECT_EQ(female.intervals.front().upper, 1);
  // The same limit as of the females alone, with recapture held where both sexes put it.
  EXPECT_GT(female.intervals.front().lower, 0.8);
  EXPECT_LT(female.intervals.front().lower, 0.999);
  // The profile of a sum of coordinates is that of a coordinate when the sum has one.
  const Eigen::Index recapture = model.fit.theta.size() - 1;
  const Interval one = profile_interval(model.likelihood, model.fit, recapture, 0.95),
                 sum = profile_interval(model.likelihood, model.fit,
                                        2 * Eigen::VectorXd::Unit(recapture + 1, recapture), 0.95);
  EXPECT_NEAR(sum.lower, 2 * one.lower, 1e-5);
  EXPECT_NEAR(sum.upper, 2 * one.upper, 1e-5);

  const EstimateReport report =
      estimate(histories, {.design = "open", .models = {"survival"}, .plots = false});
  for (const Estimate& estimate : report.answer)
    for (const Interval& interval : estimate.intervals)
      EXPECT_TRUE(estimate.value != 1 || interval.lower < interval.upper) << estimate.parameter;
}

TEST(SuperPopulation, Dipper) {
  const json entry = check_entry("05_superpopulation_growth", "super.dipper_constant");
  const json& expected = entry.at("expected");
  const MArray array = array_of(entry.at("data"));
  const FittedModel model = fit_super_population(array, {});
  agrees(entry, expected, "N_super", model.estimates[0].value);
  agrees(entry, expected, "se_N_super", model.estimates[0].standard_error);
  agrees(entry, expected, "loglik_kernel", model.log_likelihood);
  agrees(entry, expected, "phi", std::vector<double>{named(model, "survival").value});
  agrees(entry, expected, "p", std::vector<double>{named(model, "capture").value});
  agrees(entry, expected, "b", series(model, "entry", 0, 6));
  agrees(entry, expected, "N_i", series(model, "N", 1, 7));
  agrees(entry, expected, "K", model.parameters);
  agrees(entry, expected, "se_phi", named(model, "survival").standard_error);
  agrees(entry, expected, "se_p", named(model, "capture").standard_error);
  const FittedModel conditional = fit_super_population(array, {false, false, false, true});
  agrees(entry, expected, "conditional_N_super", conditional.estimates[0].value);
  agrees(entry, expected, "conditional_loglik", conditional.log_likelihood);
  agrees(entry, expected, "conditional_phi", std::vector<double>{named(conditional, "survival").value});
  agrees(entry, expected, "conditional_p", std::vector<double>{named(conditional, "capture").value});
}

TEST(SuperPopulation, ByOccasionWithKnownEndsIsJollySeber) {
  const json entry = check_entry("05_superpopulation_growth", "super.dipper_equals_js");
  const FittedModel model = fit_super_population(array_of(entry.at("data")), {true, true, true, true});
  agrees(entry, entry.at("expected"), "N_2_to_6", series(model, "N", 2, 6));
  agrees(entry, entry.at("expected"), "phi_1_to_5", series(model, "survival", 1, 5));
  agrees(entry, entry.at("expected"), "B_2_to_5", series(model, "births", 2, 5));
}

TEST(Growth, Dipper) {
  for (const auto& [id, survival, growth] : {std::tuple{"growth.dipper_constant", false, false},
                                             {"growth.dipper_lambda_t", false, true},
                                             {"growth.dipper_phi_t", true, false}}) {
    const json entry = check_entry("05_superpopulation_growth", id);
    const json& expected = entry.at("expected");
    GrowthTerms terms;
    terms.survival_by_occasion = survival;
    terms.growth_by_occasion = growth;
    const FittedModel model = fit_growth(array_of(entry.at("data")), terms);
    agrees(entry, expected, "loglik", model.log_likelihood);
    if (expected.contains("K")) agrees(entry, expected, "K", model.parameters);
    const auto all = [&](const char* name, bool many, double Estimate::*member) {
      return many ? series(model, name, 1, 6, member) : std::vector<double>{named(model, name).*member};
    };
    agrees(entry, expected, "phi", all("survival", survival, &Estimate::value));
    agrees(entry, expected, "se_phi", all("survival", survival, &Estimate::standard_error));
    agrees(entry, expected, "p", all("capture", false, &Estimate::value));
    agrees(entry, expected, "se_p", all("capture", false, &Estimate::standard_error));
    const std::string first = survival && !growth ? "growth rate 1" : "growth rate";
    agrees(entry, expected, "lambda",
           growth ? series(model, "growth rate", 1, 6) : std::vector<double>{named(model, first).value});
    agrees(entry, expected, "se_lambda",
           growth ? series(model, "growth rate", 1, 6, &Estimate::standard_error)
                  : std::vector<double>{named(model, first).standard_error});
    if (!expected.contains("gamma")) continue;
    agrees(entry, expected, "gamma", named(model, "seniority").value);
    agrees(entry, expected, "recruitment_f", named(model, "recruitment").value);
    for (const GrowthForm form : {GrowthForm::recruitment, GrowthForm::seniority}) {
      const FittedModel other = fit_growth(array_of(entry.at("data")), {form, false, false, false});
      EXPECT_NEAR(other.log_likelihood, model.log_likelihood, 1e-7) << "one model, three ways to say it";
      EXPECT_NEAR(named(other, "growth rate").value, named(model, "growth rate").value, 1e-5);
    }
  }
}

TEST(EntryModels, RealisedDataSet) {
  const json entry = check_entry("10_simulation_truths", "realised.open");
  const MArray array = array_of(entry.at("data"));
  const json& growth = entry.at("expected").at("growth_constant");
  const FittedModel model = fit_growth(array, {});
  agrees(entry, growth, "phi_p_lambda",
         {named(model, "survival").value, named(model, "capture").value, named(model, "growth rate").value});
  agrees(entry, growth, "loglik", model.log_likelihood);
  const json& super = entry.at("expected").at("super_constant");
  const FittedModel population = fit_super_population(array, {});
  agrees(entry, super, "N_super", population.estimates[0].value);
  agrees(entry, super, "se_N", population.estimates[0].standard_error);
  agrees(entry, super, "phi", named(population, "survival").value);
  agrees(entry, super, "p", named(population, "capture").value);
}

TEST(EntryModels, GradientsAreThoseOfDifferences) {
  const MArray array = array_of(check_entry("04_open_survival", "cjs.dipper_constant").at("data"));
  std::vector<FittedModel> models = {fit_super_population(array, {}),
                                     fit_super_population(array, {true, true, true, true}),
                                     fit_super_population(array, {true, true, false, false})};
  for (const GrowthForm form : {GrowthForm::growth, GrowthForm::recruitment, GrowthForm::seniority})
    models.push_back(fit_growth(array, {form, true, true, true}));
  for (const FittedModel& model : models) {
    testing::expect_gradient_of_differences(model, 0.05);
  }
}

TEST(OpenModels, LossesOnCaptureLeaveTheReleases) {
  CaptureHistories histories = histories_from_counts({{"110", 2}, {"101", 1}, {"100", 3}});
  // Rows come in the order 100 x 3, 101, 110 x 2.
  histories.lost = {1, 0, 0, 0, 0, 1};
  const MArray array = m_array(histories);
  EXPECT_EQ(array.released[0], 5);
  EXPECT_EQ(array.released[1], 1);
  EXPECT_EQ(array.next(0, 1), 2);
  EXPECT_EQ(array.next(0, 2), 1);
  EXPECT_THROW(m_array(histories_from_counts({{"1", 2}})), InputError);
}

}  // namespace
}  // namespace evet::models
