// Conditional likelihood against the recomputed values for the snowshoe hare data (Otis et al. 1978; Agresti
// 1994), the taxicabs of known number, and identities that hold exactly.
#include "models/closed/conditional.h"

#include <gtest/gtest.h>

#include <cmath>

#include "check_values.h"
#include "gradient_check.h"
#include "models/base/input_error.h"
#include "models/base/random.h"

namespace evet::models {
namespace {

using nlohmann::json;
using testing::agrees;

std::vector<double> limits(const Estimate& estimate) {
  return {estimate.intervals.at(0).lower, estimate.intervals.at(0).upper};
}

void check_number(const json& entry, const json& expected, const FittedModel& model) {
  agrees(entry, expected, "N", model.estimates.at(0).value);
  agrees(entry, expected, "se", model.estimates.at(0).standard_error);
  agrees(entry, expected, "p_star", model.estimates.at(0).details.at("p_star"));
  agrees(entry, expected, "loglik", model.log_likelihood);
  agrees(entry, expected, "lognormal95", limits(model.estimates.at(0)));
}

TEST(Conditional, PublishedData) {
  for (const json& entry : {testing::check_entry("03_closed_models", "closed.hare"),
                            testing::check_entry("10_simulation_truths", "realised.closed")}) {
    const CaptureHistories histories = testing::histories_of(entry.at("data").at("history_counts"));
    const json& expected = entry.at("expected");
    const FittedModel m0 = fit_conditional(histories, {});
    check_number(entry, expected.at("conditional_M0"), m0);
    agrees(entry, expected.at("conditional_M0"), "p", m0.estimates.at(1).value);
    const FittedModel mt = fit_conditional(histories, {.occasion = true});
    check_number(entry, expected.at("conditional_Mt"), mt);
    std::vector<double> p;
    for (std::size_t j = 1; j < mt.estimates.size(); ++j) p.push_back(mt.estimates[j].value);
    agrees(entry, expected.at("conditional_Mt"), "p", p);
    if (!expected.contains("conditional_Mb")) continue;
    const FittedModel mb = fit_conditional(histories, {.response = true});
    check_number(entry, expected.at("conditional_Mb"), mb);
    agrees(entry, expected.at("conditional_Mb"), "p", mb.estimates.at(1).value);
    agrees(entry, expected.at("conditional_Mb"), "c", mb.estimates.back().value);
  }
}

// Histories of animals with a length and a sex that catchability depends on.
CaptureHistories lengths_and_sexes(int animals, std::uint64_t seed) {
  Random random(seed);
  CaptureHistories histories;
  histories.occasions = {"1", "2", "3", "4", "5"};
  histories.occasion_covariates["effort"] = {1, 2, 1, 3, 2};
  for (int i = 0; i < animals; ++i) {
    const double length = 65 + 8 * random.normal();
    const bool female = random.chance(0.5);
    std::vector<std::uint8_t> row;
    int captures = 0;
    for (const double effort : histories.occasion_covariates["effort"]) {
      const double eta = -2.2 + 0.06 * (length - 65) + (female ? 0.5 : 0) + 0.4 * effort;
      row.push_back(random.chance(1 / (1 + std::exp(-eta))) ? 1 : 0);
      captures += row.back();
    }
    if (captures == 0) continue;
    histories.animals.push_back(std::to_string(i));
    histories.caught.insert(histories.caught.end(), row.begin(), row.end());
    histories.covariates["svl_mm"].push_back(length);
    histories.groups["sex"].push_back(female ? "female" : "male");
  }
  return histories;
}

TEST(Conditional, CovariatesOfAnimalsGroupsAndOccasionsAreFound) {
  const CaptureHistories histories = lengths_and_sexes(1500, 7);
  const FittedModel model = fit_conditional(
      histories, {.groups = {"sex"}, .occasion_covariates = {"effort"}, .covariates = {"svl_mm"}});
  const auto find = [&](const std::string& name) {
    for (const Estimate& estimate : model.estimates)
      if (estimate.parameter == name) return estimate;
    ADD_FAILURE() << name;
    return Estimate{};
  };
  const auto near = [&](const std::string& name, double truth) {
    const Estimate estimate = find(name);
    EXPECT_LT(std::abs(estimate.value - truth), 3.5 * estimate.standard_error)
        << name << " " << estimate.value;
  };
  near("N", 1500);
  near("p: slope on svl_mm", 0.06);
  near("p: slope on effort", 0.4);
  near("p: shift for sex male", -0.5);
  EXPECT_NEAR(find("N: sex male").value + find("N: sex female").value, find("N").value, 1e-6);
  // Leaving length out makes animals look alike and the number too low.
  EXPECT_LT(
      fit_conditional(histories, {.groups = {"sex"}, .occasion_covariates = {"effort"}}).estimates[0].value,
      find("N").value);
}

TEST(Conditional, GroupsByOccasionAreSeparateFits) {
  const CaptureHistories histories = lengths_and_sexes(400, 8);
  const FittedModel both = fit_conditional(histories, {.groups = {"sex"}, .group_by_occasion = true});
  double sum = 0;
  for (const char* sex : {"female", "male"}) {
    std::vector<std::size_t> chosen;
    for (std::size_t i = 0; i < histories.animal_count(); ++i)
      if (histories.groups.at("sex")[i] == sex) chosen.push_back(i);
    sum += fit_conditional(select_animals(histories, chosen), {.occasion = true}).log_likelihood;
  }
  EXPECT_NEAR(both.log_likelihood, sum, 1e-6);
}

TEST(Conditional, GradientsAreThoseOfDifferences) {
  const CaptureHistories histories = lengths_and_sexes(60, 9);
  for (const Terms& terms :
       {Terms{}, Terms{.occasion = true, .response = true},
        Terms{
            .groups = {"sex"}, .occasion_covariates = {"effort"}, .covariates = {"svl_mm"}, .response = true},
        Terms{.groups = {"sex"}, .group_by_occasion = true}}) {
    const FittedModel model = fit_conditional(histories, terms);
    testing::expect_gradient_of_differences(model, 0.2, 1e-7);
  }
}

TEST(Conditional, WhatIsMissingIsNamed) {
  CaptureHistories histories = lengths_and_sexes(30, 10);
  EXPECT_THROW(fit_conditional(histories, {.groups = {"stage"}}), InputError);
  EXPECT_THROW(fit_conditional(histories, {.occasion_covariates = {"rain"}}), InputError);
  EXPECT_THROW(fit_conditional(histories, {.covariates = {"mass_g"}}), InputError);
  EXPECT_THROW(fit_conditional(histories, {.group_by_occasion = true}), InputError);
  histories.covariates["svl_mm"][3] = kUndefined;
  try {
    fit_conditional(histories, {.covariates = {"svl_mm"}});
    FAIL();
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("animal '" + histories.animals[3] + "'"), std::string::npos)
        << error.what();
  }
}

}  // namespace
}  // namespace evet::models
