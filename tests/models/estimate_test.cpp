// The front door: designs, sets of models, answers, warnings and the JSON of it, on the data sets of the
// check values (snowshoe hares: Otis et al. 1978; dippers: Lebreton et al. 1992; a realised robust design).
#include "models/estimate.h"

#include <gtest/gtest.h>

#include <cmath>

#include "check_values.h"
#include "models/base/input_error.h"
#include "models/base/random.h"
#include "models/report/report_text.h"
#include "models/simulate/simulate.h"

namespace evet::models {
namespace {

using nlohmann::json;

CaptureHistories hares() {
  return testing::histories_of(
      testing::check_entry("03_closed_models", "closed.hare").at("data").at("history_counts"));
}
CaptureHistories open_population() {
  return testing::histories_of(
      testing::check_entry("10_simulation_truths", "realised.open").at("data").at("history_counts"));
}
CaptureHistories robust_population() {
  const json data = testing::check_entry("06_robust_design", "robust.realised").at("data");
  CaptureHistories histories = testing::histories_of(data.at("history_counts"));
  for (std::size_t j = 0; j < histories.occasion_count(); ++j)
    histories.primary.push_back(static_cast<int>(j) / data.at("secondary").get<int>());
  return histories;
}

const ModelRow& row_of(const EstimateReport& report, const std::string& name) {
  for (const ModelRow& row : report.table)
    if (row.name == name) return row;
  throw std::runtime_error("no row " + name);
}
const Estimate& answer_of(const EstimateReport& report, const std::string& name) {
  for (const Estimate& estimate : report.answer)
    if (estimate.parameter == name) return estimate;
  throw std::runtime_error("no answer " + name);
}
bool mentions(const Sentences& list, const std::string& words) {
  for (const Message& sentence : list)
    if (sentence.words().find(words) != std::string::npos) return true;
  return false;
}

TEST(EstimateReport, TwoOccasionsGiveTheTwoSampleEstimate) {
  const EstimateReport report = estimate(histories_from_counts({{"10", 52}, {"01", 120}, {"11", 57}}));
  EXPECT_NEAR(report.answer.at(0).value, 336.5862069, 1e-6);
  const json document = to_json(report);
  EXPECT_EQ(document.at("models").at(0).at("model"), "chapman");
  EXPECT_FALSE(document.at("assumptions").empty());
}

TEST(EstimateReport, AnInfiniteBoundIsWrittenAsSuch) {
  const EstimateReport report = estimate(histories_from_counts({{"10", 5}, {"01", 4}}));
  const json document = to_json(report);
  EXPECT_EQ(document.at("answer").at(0).at("intervals").at(0).at("upper"), "inf");
  EXPECT_FALSE(document.at("warnings").empty());
  EXPECT_NE(to_text(report).find("no limit"), std::string::npos);
}

TEST(EstimateReport, UnknownNamesAreRefused) {
  const CaptureHistories histories = histories_from_counts({{"10", 5}, {"11", 4}});
  EXPECT_THROW(estimate(histories, {.design = "opened"}), InputError);
  EXPECT_THROW(estimate(histories, {.models = {"guess"}}), InputError);
  EXPECT_THROW(estimate(histories, {.level = 95}), InputError);
  EXPECT_THROW(estimate(histories, {.design = "open", .models = {"chapman"}}), InputError);
  EXPECT_THROW(estimate(histories, {.models = {"chapman", "survival"}}), InputError) << "two designs";
  EXPECT_THROW(estimate(histories, {.design = "robust"}), InputError) << "no primary periods";
}

TEST(EstimateReport, ClosedSetIsWeighedAndAveraged) {
  const EstimateReport report = estimate(hares());
  EXPECT_EQ(report.design, "closed");
  EXPECT_EQ(report.why.at(0).code(), "no_dates_closed");
  EXPECT_NE(words(report.why).find("No dates"), std::string::npos);
  double weight = 0, mean = 0, spread = 0;
  for (const ModelRow& row : report.table) weight += row.weight;
  EXPECT_NEAR(weight, 1, 1e-9);
  for (const ModelRow& row : report.table)
    if (row.weight > 0) mean += row.weight * row.estimates[0].value;
  for (const ModelRow& row : report.table)
    if (row.weight > 0)
      spread += row.weight * std::hypot(row.estimates[0].standard_error, row.estimates[0].value - mean);
  EXPECT_NEAR(answer_of(report, "N").value, mean, 1e-9);
  EXPECT_NEAR(answer_of(report, "N").standard_error, spread, 1e-9) << "unconditional";
  // Agresti (1994), Biometrics 50:494-500, finds strong differences between the hares.
  EXPECT_GT(row_of(report, "mixture").weight + row_of(report, "occasion-mixture").weight +
                row_of(report, "response-mixture").weight + row_of(report, "beta-binomial").weight,
            0.9);
  bool found = false;
  for (const NestedTest& test : report.nested)
    if (test.smaller == "constant" && test.larger == "occasion") {
      found = true;
      EXPECT_NEAR(test.chi_square, 10.2497, 1e-3);
      EXPECT_EQ(test.degrees_of_freedom, 5);
    }
  EXPECT_TRUE(found);
  EXPECT_TRUE(mentions(report.assumptions, "No animal entered, left"));
  EXPECT_EQ(report.tests.at(0).name, "closure");
}

TEST(EstimateReport, OpenDesignAnswersSurvivalNumbersAndGrowth) {
  EstimateRequest request;
  request.design = "open";
  const EstimateReport report = estimate(open_population(), request);
  // A factor of a little more than 1 that chance gives often widens nothing.
  EXPECT_EQ(report.criterion, "AICc");
  EXPECT_GT(report.overdispersion.pooled, 1);
  EXPECT_EQ(report.overdispersion.used, 1);
  EXPECT_GT(report.overdispersion.bootstrap, 0);
  for (const char* name : {"survival 1", "N ever", "N 3", "growth rate 1"}) {
    const Estimate& one = answer_of(report, name);
    EXPECT_GT(one.value, 0) << name;
    EXPECT_LT(one.intervals.at(0).lower, one.value) << name;
    EXPECT_GT(one.intervals.at(0).upper, one.value) << name;
  }
  EXPECT_NEAR(answer_of(report, "survival 2").value, 0.83, 0.04);
}

TEST(EstimateReport, OverdispersionWidensTheErrors) {
  // Every animal three times over: groups of three that live and are caught together.
  const CaptureHistories once = open_population();
  CaptureHistories thrice = once;
  for (int copy = 1; copy < 3; ++copy)
    for (std::size_t i = 0; i < once.animal_count(); ++i) {
      thrice.animals.push_back(once.animals[i] + "-" + std::to_string(copy));
      const auto row = once.caught.begin() + static_cast<std::ptrdiff_t>(i * once.occasion_count());
      thrice.caught.insert(thrice.caught.end(), row,
                           row + static_cast<std::ptrdiff_t>(once.occasion_count()));
    }
  EstimateRequest request;
  request.design = "open";
  const EstimateReport report = estimate(thrice, request);
  EXPECT_EQ(report.criterion, "QAICc");
  EXPECT_GT(report.overdispersion.used, 2);
  // Standard errors are widened by the root of the factor, and the row tells what a card would say.
  const ModelRow& constant = report.table.front();
  EXPECT_NEAR(constant.estimates[0].standard_error, 0.04597319 * std::sqrt(report.overdispersion.used / 3),
              1e-6);
  EXPECT_EQ(constant.card_entry.at("survival"), "constant");
  request.card = {{"models", {constant.card_entry}}, {"overdispersion", 1}};
  const EstimateReport again = estimate(open_population(), request);
  EXPECT_NEAR(again.table.at(0).estimates[0].standard_error, 0.04597319, 1e-6);
  EXPECT_EQ(again.criterion, "AICc");
}

TEST(EstimateReport, WhatTheDataCannotTellApartIsNamedAndLeftOutOfTheAverage) {
  EstimateRequest request;
  request.card = json::parse(R"({"models": [{"model": "survival", "survival": {"varies_by": ["occasion"]},
                                             "recapture": {"varies_by": ["occasion"]}}], "overdispersion": 1})");
  // Taken from a truth inside all ranges, so that the ridge has no end near.
  Random random(3);
  const CaptureHistories histories = simulate_releases(
      {80, 80, 80, 80, 0}, {0.6, 0.6, 0.6, 0.6}, {0, 0.5, 0.5, 0.5, 0.5}, [&] { return random.uniform(); });
  const EstimateReport report = estimate(histories, request);
  EXPECT_EQ(report.design, "open");
  EXPECT_EQ(report.table.at(0).not_estimable,
            (std::vector<Parameter>{{Quantity::survival, 4}, {Quantity::recapture, 5}}));
  EXPECT_FALSE(answer_of(report, "survival 4").undefined.empty());
  EXPECT_TRUE(std::isnan(answer_of(report, "survival 4").standard_error));
  EXPECT_TRUE(answer_of(report, "survival 2").undefined.empty());
  EXPECT_TRUE(mentions(report.warnings, "survival 4 and recapture 5"));
}

TEST(EstimateReport, PrimaryPeriodsGiveTheRobustDesign) {
  const EstimateReport report = estimate(robust_population());
  EXPECT_EQ(report.design, "robust");
  const json expected = testing::check_entry("06_robust_design", "robust.realised").at("expected");
  bool found = false;
  for (const ModelRow& row : report.table)
    if (row.description == "survival constant, capture constant, random temporary emigration") {
      found = true;
      EXPECT_NEAR(row.log_likelihood, expected.at("model_random").at("loglik").at("value").get<double>(),
                  1e-3);
      EXPECT_LT(row.delta, 0.01);
    }
  EXPECT_TRUE(found);
  EXPECT_EQ(answer_of(report, "N 5").parameter, "N 5");
}

TEST(EstimateReport, DatesChooseTheDesign) {
  CaptureHistories histories = hares();
  histories.dates = {"2026-04-01", "2026-04-02", "2026-04-03", "2026-04-08", "2026-04-09", "2026-04-10"};
  EXPECT_EQ(estimate(histories).design, "closed");
  histories.dates = {"2024-04-01", "2024-06-02", "2025-04-03", "2025-06-08", "2026-04-09", "2026-06-10"};
  const EstimateReport report = estimate(histories);
  EXPECT_EQ(report.design, "open");
  EXPECT_EQ(report.why.at(0).argument("span"), "800 days");
  EXPECT_EQ(report.time.unit, "month");
}

TEST(EstimateReport, ThinDataAreSaidInWords) {
  const EstimateReport none =
      estimate(histories_from_counts({{"1000", 5}, {"0100", 4}, {"0010", 6}, {"0001", 5}}));
  EXPECT_TRUE(std::isinf(none.answer.at(0).value));
  EXPECT_TRUE(std::isinf(none.answer.at(0).intervals.at(0).upper));
  EXPECT_FALSE(none.answer.at(0).undefined.empty());
  EXPECT_TRUE(mentions(none.warnings, "No animal was caught twice"));
  const EstimateReport few =
      estimate(histories_from_counts({{"1100", 2}, {"0100", 9}, {"0010", 3}, {"0001", 8}}));
  EXPECT_TRUE(mentions(few.warnings, "Fewer than ten recaptures"));
  EXPECT_TRUE(mentions(few.warnings, "Fewer than five animals were caught on occasion 1"));
  const EstimateReport one = estimate(histories_from_counts({{"1", 4}}));
  EXPECT_FALSE(one.answer.at(0).undefined.empty());
  EXPECT_TRUE(mentions(one.warnings, "survey again"));
}

TEST(EstimateReport, AFailingTestBecomesAWarning) {
  const EstimateReport report = estimate(histories_from_counts(
      {{"1100000000", 20}, {"0000011000", 20}, {"0000000110", 10}, {"1000000000", 30}}));
  EXPECT_TRUE(mentions(report.warnings, "Captures of an animal lie too close together"));
}

TEST(EstimateReport, SameRequestSameBytesAndEverythingInTheDocument) {
  EstimateRequest request;
  request.design = "open";
  const std::string once = to_json(estimate(open_population(), request)).dump();
  EXPECT_EQ(once, to_json(estimate(open_population(), request)).dump());
  const json document = json::parse(once);
  for (const char* key : {"design", "why", "level", "criterion", "overdispersion", "models", "answer",
                          "tests", "nested", "assumptions", "warnings", "plots"})
    EXPECT_TRUE(document.contains(key)) << key;
  EXPECT_EQ(once.find("NaN"), std::string::npos);
}

TEST(EstimateReport, TextHoldsAnswerTableTestsAndAssumptions) {
  const std::string text = to_text(estimate(hares()));
  for (const char* words : {"68 animals, 145 captures, 6 occasions", "Answer", "95 % interval",
                            "occasion-mixture", "Beside the models", "jackknife", "closure", "This holds if"})
    EXPECT_NE(text.find(words), std::string::npos) << words;
  std::size_t longest = 0, start = 0;
  for (std::size_t end; (end = text.find('\n', start)) != std::string::npos; start = end + 1)
    longest = std::max(longest, end - start);
  EXPECT_LE(longest, 110u);
}

}  // namespace
}  // namespace evet::models
