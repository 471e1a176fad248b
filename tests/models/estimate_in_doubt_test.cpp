// Both figures side by side, for any quantity, and what stops a figure that would count an
// open night as empty.
#include "models/identity/estimate_in_doubt.h"

#include <gtest/gtest.h>

#include <cmath>

#include "models/base/random.h"
#include "models/histories_csv.h"
#include "models/simulate/simulate.h"

namespace evet::models {
namespace {

CaptureHistories pond(std::uint64_t seed) {
  Random random(seed);
  return simulate_closed({60, std::vector<double>(5, 0.4), {}, {}}, [&] { return random.uniform(); });
}

// A recapture becomes a new animal with the chance `split`.
CaptureHistories split_up(const CaptureHistories& histories, double split, std::uint64_t seed) {
  Random random(seed);
  CaptureHistories out = histories;
  out.animals.clear();
  out.caught.clear();
  const auto add = [&](const std::vector<std::uint8_t>& row) {
    out.animals.push_back(std::to_string(out.animals.size()));
    out.caught.insert(out.caught.end(), row.begin(), row.end());
  };
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    std::vector<std::uint8_t> row(5, 0);
    bool caught = false;
    for (std::size_t j = 0; j < 5; ++j) {
      if (!histories.was_caught(i, j)) continue;
      std::vector<std::uint8_t> apart(5, 0);
      apart[j] = 1;
      if (caught && random.chance(split))
        add(apart);
      else
        row[j] = 1, caught = true;
    }
    add(row);
  }
  return out;
}

TEST(EstimateInDoubt, StandsBesideTheCertainFigureAndSaysWhyTheyDiffer) {
  const CaptureHistories certain = pond(3);
  DoubtfulHistories doubtful{
      certain, [&](int draw) { return split_up(certain, 0.1, 100 + static_cast<std::uint64_t>(draw)); }, 12};
  const EstimateInDoubt both = estimate_in_doubt(doubtful, {.design = "closed", .plots = false});
  ASSERT_FALSE(both.rows.empty());
  EXPECT_EQ(both.draws, 20);
  EXPECT_GT(both.rows.front().in_doubt.value, both.rows.front().certain.value);
  EXPECT_NE(both.differ.words().find("more different animals"), std::string::npos) << both.differ.words();
  EXPECT_NE(words(both.why).find("drawn 20 times"), std::string::npos);
  const nlohmann::json document = to_json_of_doubt(both);
  EXPECT_EQ(document["rows"][0]["certain"]["parameter"], "N");
  EXPECT_EQ(document["rows"][0]["in_doubt"]["details"]["draws"], 20);
  EXPECT_NE(to_text_of_doubt(both).find("with their doubt"), std::string::npos);
}

TEST(EstimateInDoubt, IsForEveryQuantityOfAnOpenAnswer) {
  Random random(4);
  CaptureHistories histories =
      simulate_open({{60, 20, 20, 20, 20}, std::vector<double>(4, 0.7), std::vector<double>(5, 0.5)},
                    [&] { return random.uniform(); });
  DoubtfulHistories doubtful{histories, [&](int) { return histories; }, 3};
  const EstimateInDoubt both = estimate_in_doubt(doubtful, {.design = "open", .plots = false});
  int survival = 0, numbers = 0;
  for (const BothFigures& row : both.rows) {
    if (!row.model.empty() || !std::isfinite(row.certain.value) || !(row.certain.standard_error > 0))
      continue;
    survival += row.certain.what.quantity == Quantity::survival;
    numbers += row.certain.what.quantity == Quantity::number;
    EXPECT_NEAR(row.in_doubt.value, row.certain.value, 0.02 * row.certain.value) << row.certain.parameter;
  }
  EXPECT_GE(survival, 3);
  EXPECT_GE(numbers, 3);
}

TEST(EstimateInDoubt, DrawsThatAreAllAlikeKeepTheLimits) {
  const CaptureHistories certain = pond(9);
  const EstimateInDoubt both =
      estimate_in_doubt({certain, [&](int) { return certain; }, 2}, {.design = "closed", .plots = false});
  for (const BothFigures& row : both.rows) {
    if (!std::isfinite(row.certain.value) || !std::isfinite(row.certain.intervals.front().upper)) continue;
    const Interval &one = row.certain.intervals.front(), &other = row.in_doubt.intervals.front();
    EXPECT_NEAR(other.lower, one.lower, 0.01 * one.lower) << row.model;
    EXPECT_NEAR(other.upper, one.upper, 0.01 * one.upper) << row.model;
  }
}

TEST(EstimateInDoubt, ACertainFigureThatCannotBeIsAReasonAndNoSilence) {
  // All but the first occasion are open; the draws know them.
  const CaptureHistories drawn = pond(10);
  CaptureHistories open = drawn;
  open.unsettled = {0, 5, 5, 5, 5};
  const EstimateInDoubt both = estimate_in_doubt({open, [&](int) { return drawn; }, 20}, {.plots = false});
  EXPECT_FALSE(both.report.answer.empty());
  EXPECT_FALSE(both.report.answer.front().undefined.empty());
  EXPECT_EQ(both.plain.find("About "), 0u) << both.plain;
  // Periods of which too few are settled for the design that the whole series has.
  Random random(3);
  CaptureHistories periods = simulate_robust({{60, 20}, 3, 0.7, 0, 0, 0.5}, [&] { return random.uniform(); });
  CaptureHistories one_open = periods;
  one_open.unsettled = {0, 3, 0, 0, 0, 0};
  const EstimateInDoubt two =
      estimate_in_doubt({one_open, [&](int) { return periods; }, 3}, {.plots = false});
  EXPECT_FALSE(two.report.answer.empty());
  EXPECT_FALSE(two.report.warnings.empty());
  EXPECT_NE(two.plain.find("animals were there"), std::string::npos) << two.plain;
}

TEST(EstimateInDoubt, WithoutDoubtThereIsOneFigure) {
  const EstimateInDoubt both = estimate_in_doubt({pond(5), {}, 0}, {.plots = false});
  EXPECT_TRUE(both.rows.empty());
  EXPECT_FALSE(both.report.answer.empty());
  EXPECT_FALSE(both.why.empty());
}

TEST(Unsettled, ANightThatIsNotSettledIsNoNightWithoutACatch) {
  CaptureHistories histories = pond(6);
  const EstimateReport before = estimate(select_occasions(histories, 0, 3), {.plots = false});
  for (std::size_t i = 0; i < histories.animal_count(); ++i) histories.caught[i * 5 + 3] = 0;
  std::vector<std::size_t> seen;
  for (std::size_t i = 0; i < histories.animal_count(); ++i)
    for (std::size_t j = 0; j < 5; ++j)
      if (histories.was_caught(i, j)) {
        seen.push_back(i);
        break;
      }
  histories = select_animals(histories, seen);
  histories.unsettled = {0, 0, 0, 22, 0};
  const EstimateReport report = estimate(histories, {.plots = false});
  EXPECT_EQ(report.stopped_before, "4");
  EXPECT_EQ(report.occasions, 3);
  EXPECT_NEAR(report.answer.at(0).value, before.answer.at(0).value, 1e-9);
  EXPECT_EQ(report.warnings.at(0).code(), "figures_stop_before");
  EXPECT_NE(report.warnings.at(0).words().find("22 captures are not settled"), std::string::npos)
      << report.warnings.at(0).words();
  histories.unsettled = {2, 0, 0, 0, 0};
  const EstimateReport none = estimate(histories, {.plots = false});
  EXPECT_TRUE(std::isnan(none.answer.at(0).value));
  EXPECT_FALSE(none.answer.at(0).undefined.empty());
  EXPECT_EQ(to_json(none)["stopped_before"], "1");
}

TEST(Unsettled, PeriodsBeforeAnOpenNightAreEstimated) {
  Random random(8);
  CaptureHistories histories =
      simulate_robust({{60, 20, 20}, 3, 0.7, 0, 0, 0.5}, [&] { return random.uniform(); });
  histories.unsettled = {0, 0, 0, 0, 0, 0, 0, 4, 0};
  const EstimateReport report = estimate(histories, {.plots = false});
  EXPECT_EQ(report.design, "robust");
  EXPECT_EQ(report.stopped_before, "8");
  EXPECT_EQ(report.occasions, 7);
}

TEST(Unsettled, GoesThroughTheCsv) {
  CaptureHistories histories = pond(7);
  histories.unsettled = {0, 0, 3, 0, 0};
  std::stringstream text;
  write_histories_csv(histories, text);
  EXPECT_NE(text.str().find("#unsettled,0,0,3,0,0"), std::string::npos);
  EXPECT_EQ(read_histories_csv(text).unsettled, histories.unsettled);
}

}  // namespace
}  // namespace evet::models
