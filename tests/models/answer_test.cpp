// Chances of one interval and chances that are the same throughout are figures of their own.
#include <gtest/gtest.h>

#include <algorithm>

#include "models/ask/answer.h"
#include "models/base/random.h"
#include "models/estimate.h"
#include "models/simulate/simulate.h"

namespace evet::models {
namespace {

const std::vector<double> kSurvival = {0.6, 0.8, 0.5, 0.85, 0.7}, kCapture = {0.3, 0.5, 0.2, 0.6, 0.35, 0.5};

CaptureHistories uneven_season(Random& random) {
  return simulate_open({{200, 60, 60, 60, 60, 60}, kSurvival, kCapture}, [&] { return random.uniform(); });
}

const Estimate* figure(const EstimateReport& report, const Parameter& what) {
  for (const Estimate& one : report.answer)
    if (one.what == what) return &one;
  return nullptr;
}

// Survival differs by more than these limits are wide, and by less than a survey of this size shows: most of the
// weight is with the models in which it does not. Their limits held one interval's in three of four surveys.
TEST(AnswerByInterval, HoldsWhatTheDataCannotShow) {
  Random random(17);
  const EstimateRequest request{.design = "open", .models = {"survival"}, .plots = false};
  int given = 0, held = 0, alike = 0;
  constexpr int kSets = 12;
  for (int set = 0; set < kSets; ++set) {
    const EstimateReport report = estimate(uneven_season(random), request);
    alike += figure(report, {Quantity::survival}) ? 1 : 0;
    for (const int interval : {2, 3, 4}) {
      const Estimate* one = figure(report, {Quantity::survival, interval});
      ASSERT_NE(one, nullptr);
      if (!one->undefined.empty()) continue;
      ++given;
      const double truth = kSurvival[static_cast<std::size_t>(interval) - 1];
      held += one->intervals.front().lower <= truth && truth <= one->intervals.front().upper ? 1 : 0;
    }
  }
  EXPECT_GE(alike, kSets / 2) << "nothing is shown if the data tell the intervals apart";
  EXPECT_GE(given, 30);
  EXPECT_GE(held, given * 9 / 10);
}

TEST(AnswerByInterval, SaysWhichFigureIsWhich) {
  Random random(17);
  const EstimateReport report =
      estimate(uneven_season(random), {.design = "open", .models = {"survival"}, .plots = false});
  const Estimate* alike = figure(report, {Quantity::survival});
  ASSERT_NE(alike, nullptr);
  EXPECT_LT(alike->standard_error, figure(report, {Quantity::survival, 3})->standard_error);
  EXPECT_EQ(std::count_if(report.warnings.begin(), report.warnings.end(),
                          [](const Message& one) { return one.code() == "alike_or_by_interval"; }),
            1);
  // With nothing by interval there is one figure, and nothing to say.
  EstimateRequest request{.design = "open", .plots = false};
  request.card = nlohmann::json::parse(R"({"models": [{"model": "survival", "survival": "constant"}]})");
  const EstimateReport constant = estimate(uneven_season(random), request);
  EXPECT_EQ(std::count_if(constant.answer.begin(), constant.answer.end(),
                          [](const Estimate& one) { return one.what.quantity == Quantity::survival; }),
            1);
  EXPECT_TRUE(std::none_of(constant.warnings.begin(), constant.warnings.end(),
                           [](const Message& one) { return one.code() == "alike_or_by_interval"; }));
}

// Four of ten that come in are gone after their first occasion.
CaptureHistories with_passers(Random& random) {
  const std::vector<int> entrants = {200, 60, 60, 60, 60, 60};
  CaptureHistories h;
  for (int j = 0; j < 6; ++j) h.occasions.push_back(std::to_string(j + 1));
  for (std::size_t entry = 0; entry < entrants.size(); ++entry)
    for (int i = 0; i < entrants[entry]; ++i) {
      const bool passes = random.chance(0.4);
      std::vector<std::uint8_t> row(6, 0);
      for (std::size_t j = entry; j < 6 && (j == entry || (!passes && random.chance(0.7))); ++j)
        row[j] = random.chance(0.4) ? 1 : 0;
      if (std::find(row.begin(), row.end(), 1) == row.end()) continue;
      h.animals.push_back(std::to_string(h.animals.size()));
      h.caught.insert(h.caught.end(), row.begin(), row.end());
    }
  return h;
}

bool allows_for_passing(const ModelRow& row) {
  return std::any_of(row.estimates.begin(), row.estimates.end(), [](const Estimate& one) {
    return one.what.quantity == Quantity::survival && one.what.kind == Parameter::Kind::inner;
  });
}

// All animals let go on the first occasion are new. Models in which none passes through counted those that did as
// dead: where they held more weight than the others, the limits held survival in 44 of 67 surveys.
TEST(AnswerByInterval, FirstSurvivalRestsOnModelsInWhichSomeMayPass) {
  Random random(19);
  const EstimateRequest request{.design = "open", .models = {"survival"}, .plots = false};
  int given = 0;
  double sum = 0, of_others = 0;
  constexpr int kSets = 10;
  for (int set = 0; set < kSets; ++set) {
    const EstimateReport report = estimate(with_passers(random), request);
    const Parameter first{Quantity::survival, 1};
    const Estimate* one = figure(report, first);
    if (!one || !one->undefined.empty()) continue;
    std::vector<const ModelRow*> family;
    for (const ModelRow& row : report.table)
      if (row.has_likelihood && row.weight > 0) family.push_back(&row);
    const std::vector<const ModelRow*> behind = rows_behind(first, family);
    ASSERT_FALSE(behind.empty());
    for (const ModelRow* row : behind) EXPECT_TRUE(allows_for_passing(*row)) << row->description;
    for (const ModelRow& row : report.table)
      if (row.description == "survival by occasion; recapture constant") {
        ++given;
        sum += one->value;
        of_others += find_estimate(row, first)->value;
      }
  }
  EXPECT_GE(given, kSets / 2);
  EXPECT_GT(sum / given, of_others / given + 0.03);
}

TEST(AnswerByInterval, WithoutSuchAModelTheOthersSpeak) {
  Random random(19);
  EstimateRequest request{.design = "open", .plots = false};
  request.card = nlohmann::json::parse(
      R"({"models": [{"model": "survival", "survival": {"varies_by": ["occasion"]}}]})");
  const EstimateReport report = estimate(with_passers(random), request);
  const Estimate* first = figure(report, {Quantity::survival, 1});
  ASSERT_NE(first, nullptr);
  EXPECT_NEAR(first->value, report.table.front().estimates.front().value, 1e-12);
}

// Males survive better, by less than so few animals show.
CaptureHistories few_of_both_sexes(Random& random) {
  CaptureHistories h;
  for (const bool male : {false, true}) {
    const CaptureHistories own = simulate_open(
        {{40, 12, 12, 12, 12, 12}, std::vector<double>(5, male ? 0.79 : 0.59), std::vector<double>(6, 0.4)},
        [&] { return random.uniform(); });
    h.occasions = own.occasions;
    h.caught.insert(h.caught.end(), own.caught.begin(), own.caught.end());
    for (std::size_t i = 0; i < own.animal_count(); ++i) {
      h.animals.push_back(std::to_string(h.animals.size() + 1));
      h.groups["sex"].push_back(male ? "male" : "female");
    }
  }
  return h;
}

const std::vector<std::pair<std::string, std::string>> kFemale = {{"sex", "female"}};

// Models in which the sexes survive alike drew each towards the other.
TEST(AnswerByGroup, RestsOnModelsThatTellTheGroupsApart) {
  Random random(23);
  const EstimateReport report =
      estimate(few_of_both_sexes(random), {.design = "open", .models = {"survival"}, .plots = false});
  const Parameter of_females{Quantity::survival, {}, kFemale};
  double apart = 0, value = 0, alike = 0;
  for (const ModelRow& row : report.table) {
    const Estimate* own = find_estimate(row, of_females);
    if (!own || own->what.index || !(row.weight > 0)) continue;
    if (own->what.groups.empty()) {
      alike += row.weight;
      continue;
    }
    apart += row.weight;
    value += row.weight * own->value;
  }
  EXPECT_GT(alike, 0.05) << "nothing is shown if the data tell the sexes apart";
  ASSERT_GT(apart, 0);
  const Estimate* answered = figure(report, of_females);
  ASSERT_NE(answered, nullptr);
  EXPECT_NEAR(answered->value, value / apart, 1e-9);
  EXPECT_EQ(figure(report, {Quantity::survival}) != nullptr, alike > 0.5)
      << "of all, where most take them for alike";
}

// No model of the set tells the sexes apart in one interval: limits of all animals together held the survival of
// females there in half of the surveys.
TEST(AnswerByGroup, OneIntervalIsGivenOfAllWhereNoModelTellsTheGroupsApartInIt) {
  Random random(23);
  const EstimateReport report =
      estimate(few_of_both_sexes(random), {.design = "open", .models = {"survival"}, .plots = false});
  EXPECT_EQ(figure(report, {Quantity::survival, 3, kFemale}), nullptr);
  EXPECT_NE(figure(report, {Quantity::survival, 3}), nullptr);
  EstimateRequest request{.design = "open", .plots = false};
  request.card = nlohmann::json::parse(
      R"({"models": [{"model": "survival", "survival": {"varies_by": ["sex", "occasion"]}}]})");
  const EstimateReport both = estimate(few_of_both_sexes(random), request);
  EXPECT_NE(figure(both, {Quantity::survival, 3, kFemale}), nullptr);
  EXPECT_EQ(figure(both, {Quantity::survival, 3}), nullptr);
}

}  // namespace
}  // namespace evet::models
