// Numbers of an open population where the season, the nights or losses make them hard: small simulations
// whose truth is known, animal by animal.
#include "models/open/entry_models.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "models/base/random.h"
#include "models/estimate.h"

namespace evet::models {
namespace {

struct Survey {
  CaptureHistories histories;
  std::vector<double> present;
  double ever = 0;
};

Survey survey_of(const std::vector<int>& entrants, double survival, const std::vector<double>& p, double lost,
                 Random& random) {
  const std::size_t k = p.size();
  Survey survey;
  survey.present.assign(k, 0.0);
  for (std::size_t j = 0; j < k; ++j) survey.histories.occasions.push_back(std::to_string(j + 1));
  for (std::size_t entry = 0; entry < k; ++entry)
    for (int i = 0; i < entrants[entry]; ++i) {
      ++survey.ever;
      std::vector<std::uint8_t> row(k, 0);
      bool caught = false, gone = false;
      for (std::size_t j = entry; j < k && !gone; ++j) {
        if (j > entry && !random.chance(survival)) break;
        ++survey.present[j];
        row[j] = random.chance(p[j]) ? 1 : 0;
        caught = caught || row[j];
        gone = row[j] && random.chance(lost);
      }
      if (!caught) continue;
      survey.histories.animals.push_back(std::to_string(survey.histories.animals.size()));
      survey.histories.caught.insert(survey.histories.caught.end(), row.begin(), row.end());
      survey.histories.lost.push_back(gone ? 1 : 0);
    }
  return survey;
}

const Estimate* found(const FittedModel& model, const Parameter& what) {
  for (const Estimate& estimate : model.estimates)
    if (estimate.what == what) return &estimate;
  return nullptr;
}

// Surveys in which the interval held what was there, and the mean of estimate over truth, by occasion.
struct Tallied {
  int covered = 0;
  double ratio = 0, squares = 0, error = 0;
};
std::map<int, Tallied> tally(int sets, const std::vector<int>& entrants, double survival,
                             const std::vector<double>& p, double lost, bool capture_by_occasion) {
  std::map<int, Tallied> by_occasion;
  Random random(7);
  for (int set = 0; set < sets; ++set) {
    const Survey survey = survey_of(entrants, survival, p, lost, random);
    EntryTerms terms;
    terms.capture_by_occasion = capture_by_occasion;
    terms.conditional = true;
    const FittedModel model = fit_super_population(m_array(survey.histories), terms, {0.95, 1, false});
    for (int i = 1; i <= static_cast<int>(p.size()); ++i) {
      const Estimate* n = found(model, {Quantity::number, i});
      const double truth = survey.present[static_cast<std::size_t>(i) - 1];
      Tallied& one = by_occasion[i];
      const Interval& interval = n->intervals.front();
      one.covered += interval.lower <= truth && truth <= interval.upper ? 1 : 0;
      one.ratio += n->value / truth / sets;
      one.squares += (n->value - truth) * (n->value - truth) / sets;
      one.error += n->standard_error / sets;
    }
  }
  return by_occasion;
}

TEST(EntryModels, ASeasonWithoutLateEntryKeepsItsErrors) {
  const auto by_occasion = tally(150, {200, 40, 30, 0, 0, 0}, 0.8, std::vector<double>(6, 0.4), 0, false);
  for (const auto& [occasion, one] : by_occasion) {
    // 150 sets: 95 % give or take 3.3 standard deviations of a binomial share.
    EXPECT_GE(one.covered, 134) << "N " << occasion;
    EXPECT_NEAR(one.ratio, 1, 0.03) << "N " << occasion;
    EXPECT_NEAR(one.error, std::sqrt(one.squares), 0.25 * std::sqrt(one.squares)) << "N " << occasion;
  }
}

TEST(EntryModels, LossesOnCaptureDoNotLiveOn) {
  const auto by_occasion =
      tally(150, {200, 60, 60, 60, 60, 60}, 0.7, std::vector<double>(6, 0.4), 0.3, false);
  for (const auto& [occasion, one] : by_occasion) {
    EXPECT_NEAR(one.ratio, 1, 0.03) << "N " << occasion;
    EXPECT_GE(one.covered, 134) << "N " << occasion;
  }
}

TEST(EntryModels, GrowthAllowsForLosses) {
  // 0.3 of the caught are lost: what is left grows by survival and entrants alone.
  Random random(11);
  double sum = 0;
  constexpr int kSets = 60;
  const std::vector<int> entrants = {200, 76, 71, 67, 64, 62};
  for (int set = 0; set < kSets; ++set) {
    const Survey survey = survey_of(entrants, 0.7, std::vector<double>(6, 0.4), 0.3, random);
    GrowthTerms terms;
    terms.growth_by_occasion = true;
    const FittedModel model = fit_growth(m_array(survey.histories), terms, {0.95, 1, false});
    sum += found(model, {Quantity::growth_rate, 2})->value / kSets;
  }
  // Expected: 200 (1 - 0.12) 0.7 + 76 = 199.2 before occasion 2, of which 175.3 are left after it.
  EXPECT_NEAR(sum, (175.3 * 0.7 + 71) / 175.3, 0.03);
}

TEST(EntryModels, WhatCaptureByOccasionCannotTellIsNotGiven) {
  Random random(5);
  const Survey survey = survey_of({200, 60, 60, 60, 60, 60}, 0.7, {0.3, 0.5, 0.2, 0.6, 0.35, 0.5}, 0, random);
  for (const bool survival : {false, true}) {
    EntryTerms terms;
    terms.survival_by_occasion = survival;
    terms.capture_by_occasion = terms.conditional = true;
    const FittedModel model = fit_super_population(m_array(survey.histories), terms);
    // Schwarz & Arnason (1996): of 3k - 2 parameters given the number caught, two cannot be told with
    // survival by occasion, and one of 2k with survival constant.
    EXPECT_EQ(model.parameters, survival ? 14 : 11);
    for (const Estimate& estimate : model.estimates) {
      const int i = estimate.what.index.value_or(0);
      const Quantity of = estimate.what.quantity;
      const bool first = of == Quantity::number_ever || of == Quantity::entry ||
                         of == Quantity::mean_growth ||
                         (i == 1 && (of == Quantity::number || of == Quantity::births ||
                                     of == Quantity::capture || of == Quantity::growth_rate));
      const bool last =
          survival &&
          ((i == 5 && (of == Quantity::survival || of == Quantity::births || of == Quantity::growth_rate)) ||
           (i == 6 && (of == Quantity::number || of == Quantity::capture)));
      EXPECT_EQ(std::isnan(estimate.value), first || last) << estimate.parameter;
      EXPECT_EQ(estimate.undefined.empty(), !(first || last)) << estimate.parameter;
      EXPECT_GT(estimate.intervals.front().upper, estimate.intervals.front().lower) << estimate.parameter;
    }
  }
  EstimateRequest request;
  request.design = "open";
  request.plots = false;
  // Survival of the last interval alone, with a recapture of its own after it, is no more told than growth over it.
  for (const Estimate& estimate : estimate(survey.histories, request).answer) {
    const bool untold = estimate.what == Parameter{Quantity::number_ever} ||
                        estimate.what == Parameter{Quantity::number, 1} ||
                        estimate.what == Parameter{Quantity::growth_rate, 1} ||
                        estimate.what == Parameter{Quantity::growth_rate, 5} ||
                        estimate.what == Parameter{Quantity::survival, 5} ||
                        estimate.what == Parameter{Quantity::mean_growth};
    EXPECT_EQ(std::isnan(estimate.value), untold) << estimate.parameter;
  }
}

TEST(EntryModels, CaptureByOccasionHoldsTheNumbersThatItGives) {
  const auto by_occasion =
      tally(100, {200, 60, 60, 60, 60, 60}, 0.7, {0.3, 0.5, 0.2, 0.6, 0.35, 0.5}, 0, true);
  for (int occasion = 2; occasion <= 6; ++occasion) {
    EXPECT_GE(by_occasion.at(occasion).covered, 87) << "N " << occasion;
    EXPECT_NEAR(by_occasion.at(occasion).ratio, 1, 0.06) << "N " << occasion;
  }
}

TEST(AveragedAnswer, ACovariateLeavesTheDifferenceOfGroups) {
  CaptureHistories h;
  for (int j = 0; j < 8; ++j) h.occasions.push_back(std::to_string(j + 1));
  Random random(3);
  for (int i = 0; i < 800; ++i) {
    const bool male = i % 2;
    const double length = 70 + 5 * random.normal();
    std::vector<std::uint8_t> row(8, 0);
    const auto first = static_cast<std::size_t>(i % 7);
    row[first] = 1;
    const double eta = (male ? 2.0 : 0.5) + 0.1 * (length - 70);
    for (std::size_t j = first + 1; j < 8 && random.chance(1 / (1 + std::exp(-eta))); ++j)
      row[j] = random.chance(0.5) ? 1 : 0;
    h.animals.push_back(std::to_string(i));
    h.groups["sex"].push_back(male ? "male" : "female");
    h.covariates["svl_mm"].push_back(length);
    h.caught.insert(h.caught.end(), row.begin(), row.end());
  }
  EstimateRequest request;
  request.plots = false;
  request.card = nlohmann::json::parse(R"({"design": "open", "overdispersion": 1, "models": [
    {"model": "survival", "survival": {"varies_by": ["sex"]}},
    {"model": "survival", "survival": {"varies_by": ["sex"], "linear_in": ["svl_mm"]}}]})");
  const EstimateReport report = estimate(h, request);
  std::map<std::string, const Estimate*> by_sex;
  for (const Estimate& one : report.answer)
    if (one.what.quantity == Quantity::survival && !one.what.groups.empty())
      by_sex[one.what.groups.front().second] = &one;
  ASSERT_EQ(by_sex.size(), 2u);
  const auto at_mean = [](double eta) { return 1 / (1 + std::exp(-eta)); };
  EXPECT_NEAR(by_sex["male"]->value, at_mean(2), 3.3 * by_sex["male"]->standard_error);
  EXPECT_NEAR(by_sex["female"]->value, at_mean(0.5), 3.3 * by_sex["female"]->standard_error);
  EXPECT_GT(by_sex["male"]->value, by_sex["female"]->value + 0.15);
  EXPECT_NEAR(by_sex["male"]->at.at("svl_mm"), 70, 1) << "at the mean length, which is stated";
}

}  // namespace
}  // namespace evet::models
