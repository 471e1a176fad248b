#include "models/plan/survey_plan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "models/base/input_error.h"

namespace evet::models {
namespace {

using ::testing::HasSubstr;

PlanRequest request(double animals, double chance, std::vector<int> nights) {
  PlanRequest asked;
  asked.animals = animals, asked.chance = chance, asked.nights = std::move(nights), asked.draws = 100;
  return asked;
}

// Darroch (1958): where many animals are caught often, the drawn error is that of large samples. With 100 draws a
// standard deviation is known to about 7 % of itself; the bounds are three times that.
TEST(SurveyPlan, LargeSurveysAgreeWithTheLargeSampleError) {
  const SurveyPlan plan = plan_survey(request(1000, 0.3, {5, 8}));
  for (const PlanRow& row : plan.rows) {
    EXPECT_NEAR(row.relative_error / row.large_sample, 1, 0.21) << row.nights;
    EXPECT_NEAR(row.relative_bias, 0, 0.01);
    EXPECT_NEAR(row.coverage, 0.95, 0.07);
    EXPECT_EQ(row.no_estimate, 0);
    EXPECT_NEAR(row.seen, 1 - std::pow(0.7, row.nights), 0.01);
    EXPECT_NEAR(row.captures, 1000 * 0.3 * row.nights, 20 * row.nights);
  }
}

// Each trap by itself: twice the traps leave the square of the share that escapes (Seber 1982, from memory).
TEST(SurveyPlan, TrapsActEachByItself) {
  EXPECT_NEAR(chance_with(0.2, 10, 20), 1 - 0.8 * 0.8, 1e-12);
  EXPECT_NEAR(chance_with(0.36, 20, 10), 0.2, 1e-12);
  EXPECT_EQ(chance_with(0.2, 10, 10), 0.2);
}

TEST(SurveyPlan, MoreNightsAndMoreTrapsAreBetterAndTheCheapestThatReachesIsNamed) {
  PlanRequest asked = request(120, 0.1, {3, 6, 12});
  asked.traps_now = 10, asked.traps = {10, 20}, asked.wanted = 0.2;
  const SurveyPlan plan = plan_survey(asked);
  ASSERT_EQ(plan.rows.size(), 6U);
  EXPECT_GT(plan.rows[0].relative_error, plan.rows[2].relative_error);
  EXPECT_GT(plan.rows[1].relative_error, plan.rows[4].relative_error);
  ASSERT_TRUE(plan.enough);
  const PlanRow& enough = plan.rows[*plan.enough];
  for (const PlanRow& row : plan.rows)
    if (row.reaches) {
      EXPECT_LE(enough.nights * enough.traps, row.nights * row.traps);
    }
  EXPECT_LE(enough.relative_error, 0.2);
  EXPECT_THAT(plan.says.words(),
              HasSubstr(std::to_string(enough.nights) + " nights of " + std::to_string(enough.traps)));
}

TEST(SurveyPlan, AHopelessSurveyIsSaidToBeOne) {
  PlanRequest asked = request(30, 0.02, {2, 3});
  asked.wanted = 0.05;
  const SurveyPlan plan = plan_survey(asked);
  EXPECT_FALSE(plan.enough);
  EXPECT_GT(plan.rows[0].no_estimate, 0.3);
  EXPECT_THAT(plan.says.words(), HasSubstr("None of these surveys"));
}

TEST(SurveyPlan, AnimalsThatDifferCostPrecision) {
  PlanRequest alike = request(150, 0.25, {6}), differ = alike;
  differ.spread = 1;
  alike.draws = differ.draws = 60;
  EXPECT_GT(plan_survey(differ).rows[0].relative_error, plan_survey(alike).rows[0].relative_error);
  EXPECT_TRUE(std::isnan(plan_survey(differ).rows[0].large_sample));
}

TEST(SurveyPlan, TheSamePlanAtAnyNumberOfThreads) {
  const PlanRequest asked = request(60, 0.2, {3, 5});
  const SurveyPlan one = plan_survey(asked, 1), three = plan_survey(asked, 3);
  for (std::size_t i = 0; i < one.rows.size(); ++i) {
    EXPECT_EQ(one.rows[i].relative_error, three.rows[i].relative_error);
    EXPECT_EQ(one.rows[i].coverage, three.rows[i].coverage);
  }
  EXPECT_EQ(plan_chart(one, asked), plan_chart(three, asked));
}

TEST(SurveyPlan, WhatCannotBePlannedIsRefusedByName) {
  const auto refusal = [](PlanRequest asked) -> std::string {
    try {
      plan_survey(asked);
    } catch (const InputError& error) {
      return error.what();
    }
    return "planned";
  };
  EXPECT_THAT(refusal(request(2, 0.2, {3})), HasSubstr("animals: 2"));
  EXPECT_THAT(refusal(request(50, 1.2, {3})), HasSubstr("chance: 1.2"));
  EXPECT_THAT(refusal(request(50, 0.2, {})), HasSubstr("nights: none"));
  EXPECT_THAT(refusal(request(50, 0.2, {1})), HasSubstr("nights: 1"));
  PlanRequest asked = request(50, 0.2, {3});
  asked.traps = {0};
  EXPECT_THAT(refusal(asked), HasSubstr("traps: 0"));
  asked = request(50, kUndefined, {3});
  EXPECT_THAT(refusal(asked), HasSubstr("chance"));
}

TEST(PlanChart, DrawsALineForEachNumberOfTrapsAndTheWantedError) {
  PlanRequest asked = request(80, 0.15, {3, 6});
  asked.traps_now = 5, asked.traps = {5, 10}, asked.draws = 30;
  const std::string svg = plan_chart(plan_survey(asked), asked);
  EXPECT_THAT(svg, HasSubstr("10 traps"));
  const auto height_of = [&](const std::string& words) {
    const size_t at = svg.rfind("<text", svg.find(">" + words + "<"));
    return std::stod(svg.substr(svg.find(" y=\"", at) + 4));
  };
  EXPECT_LT(height_of("5 traps"), height_of("10 traps"))
      << "the name of a line stands at its end: fewer traps, more error";
  EXPECT_THAT(svg, HasSubstr("wanted"));
  EXPECT_THAT(svg, HasSubstr("nights"));
}

}  // namespace
}  // namespace evet::models
