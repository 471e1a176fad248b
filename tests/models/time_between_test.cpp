// Unequal intervals. A study of every unit of time in which some occasions are not surveyed (nobody can be
// caught on them) is a study with longer intervals: each family must give the truth of the one back from the
// counts of the other.
#include "models/open/time_between.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "check_values.h"
#include "gradient_check.h"
#include "models/base/input_error.h"
#include "models/estimate.h"
#include "models/open/entry_models.h"
#include "models/open/survival.h"
#include "models/report/report_text.h"
#include "models/robust/robust_design.h"
#include "tests/models/named_estimate.h"

namespace evet::models {
namespace {

using testing::named;

constexpr int kUnits = 10;
const std::vector<int> kSurveyed = {0, 1, 3, 6, 7, 9};
const std::vector<double> kLengths = {1, 2, 3, 1, 2};
constexpr double kSurvival = 0.8, kCapture = 0.4;

double chance_of_capture(int unit) {
  return std::find(kSurveyed.begin(), kSurveyed.end(), unit) == kSurveyed.end() ? 0 : kCapture;
}

// Releases and recaptures on the surveyed occasions, as expected when `fresh` unmarked animals come in on
// each unit of time.
MArray expected(const std::vector<double>& fresh) {
  std::vector<double> recapture;
  for (int unit = 1; unit < kUnits; ++unit) recapture.push_back(chance_of_capture(unit));
  const Eigen::MatrixXd cells = release_cells(std::vector<double>(kUnits - 1, kSurvival), recapture);
  std::vector<double> newly, released;
  double unmarked = 0;
  for (int unit = 0; unit < kUnits; ++unit) {
    unmarked = unmarked * kSurvival + fresh[static_cast<std::size_t>(unit)];
    if (chance_of_capture(unit) > 0) newly.push_back(unmarked * kCapture);
    unmarked *= 1 - chance_of_capture(unit);
  }
  std::vector<std::vector<double>> next;
  for (std::size_t i = 0; i + 1 < kSurveyed.size(); ++i) {
    double let_go = newly[i];
    for (std::size_t h = 0; h < i; ++h) let_go += next[h][i - 1];
    released.push_back(let_go);
    next.emplace_back(kSurveyed.size() - 1, 0.0);
    for (std::size_t j = i + 1; j < kSurveyed.size(); ++j)
      next[i][j - 1] = let_go * cells(kSurveyed[i], kSurveyed[j]);
  }
  return m_array(released, next, newly);
}

ModelOptions with_lengths() {
  ModelOptions options;
  options.profile = false;
  options.interval_lengths = kLengths;
  return options;
}

TEST(TimeBetween, SurvivalPerUnitComesBack) {
  std::vector<double> fresh(kUnits, 0.0);
  for (const int unit : kSurveyed) fresh[static_cast<std::size_t>(unit)] = 500;
  const MArray array = expected(fresh);
  const FittedModel model = fit_survival(array, false, false, with_lengths());
  EXPECT_NEAR(named(model, "survival").value, kSurvival, 1e-6);
  EXPECT_NEAR(named(model, "recapture").value, kCapture, 1e-6);
  EXPECT_GT(model.log_likelihood, fit_survival(array, false, false, {.profile = false}).log_likelihood + 1);
  // By occasion the unit does not matter: the same fit, the interval's survival raised to
  // one over its length.
  const FittedModel each = fit_survival(array, true, false, with_lengths()),
                    interval = fit_survival(array, true, false, {.profile = false});
  EXPECT_NEAR(each.log_likelihood, interval.log_likelihood, 1e-7);
  for (std::size_t i = 0; i < kLengths.size(); ++i) {
    const std::string name = "survival " + std::to_string(i + 1);
    EXPECT_NEAR(named(each, name).value, kSurvival, 1e-5) << name;
    EXPECT_NEAR(named(interval, name).value, std::pow(kSurvival, kLengths[i]), 1e-5) << name;
  }
  const FittedModel last = fit_survival(array, true, true, with_lengths());
  EXPECT_NEAR(named(last, "survival x recapture, last").value, kSurvival * kSurvival * kCapture, 1e-5);
}

TEST(TimeBetween, NumbersAndGrowthPerUnitComeBack) {
  std::vector<double> entering(kUnits, 0.0);
  double ever = 0;
  for (const int unit : kSurveyed) ever += entering[static_cast<std::size_t>(unit)] = 1e6 * (1 + unit % 3);
  const FittedModel numbers = fit_super_population(expected(entering), {}, with_lengths());
  EXPECT_NEAR(named(numbers, "N ever").value / ever, 1, 1e-5);
  EXPECT_NEAR(named(numbers, "survival").value, kSurvival, 1e-5);

  const double growth = 1.05;
  std::vector<double> born(kUnits, 1000.0);
  double there = 1000;
  for (std::size_t unit = 1; unit < kUnits; ++unit) {
    born[unit] = there * (growth - kSurvival);
    there *= growth;
  }
  const MArray array = expected(born);
  for (const GrowthForm form : {GrowthForm::growth, GrowthForm::recruitment, GrowthForm::seniority}) {
    const FittedModel model = fit_growth(array, {form, false, false, false}, with_lengths());
    EXPECT_NEAR(named(model, "growth rate").value, growth, 1e-5);
    EXPECT_NEAR(named(model, "survival").value, kSurvival, 1e-5);
    EXPECT_NEAR(named(model, "recruitment").value, growth - kSurvival, 1e-5);
    EXPECT_NEAR(named(model, "seniority").value, kSurvival / growth, 1e-5);
  }
}

TEST(TimeBetween, RobustSurvivalPerUnitComesBack) {
  RobustCounts counts;
  std::vector<double> fresh(kUnits, 0.0);
  for (const int unit : kSurveyed) fresh[static_cast<std::size_t>(unit)] = 500;
  counts.periods = expected(fresh);
  // Two occasions a period, each animal caught with p on each: 1 - (1 - p)^2 is the chance of the period.
  const double p = 1 - std::sqrt(1 - kCapture);
  for (Eigen::Index i = 0; i < counts.periods.caught.size(); ++i) {
    const double there = counts.periods.caught[i] / kCapture;
    counts.captures.push_back({there * p, there * p});
    counts.exposed.push_back({counts.periods.caught[i], counts.periods.caught[i]});
  }
  const FittedModel model = fit_robust(counts, {}, with_lengths());
  EXPECT_NEAR(named(model, "survival").value, kSurvival, 1e-5);
  EXPECT_NEAR(named(model, "capture").value, p, 1e-5);
}

TEST(TimeBetween, GradientsAreThoseOfDifferences) {
  const MArray array = expected(std::vector<double>(kUnits, 300.0));
  ModelOptions options = with_lengths();
  options.interval_lengths = {0.1, 2, 30, 1, 0.5};
  for (const FittedModel& model : {fit_survival(array, true, true, options),
                                   fit_super_population(array, {true, true, false, false}, options),
                                   fit_growth(array, {GrowthForm::growth, true, true, true}, options),
                                   fit_growth(array, {GrowthForm::seniority, false, false, true}, options)}) {
    testing::expect_gradient_of_differences(model, 0.05);
  }
}

CaptureHistories dated(const std::vector<std::string>& dates) {
  CaptureHistories histories = histories_from_counts({{"1101", 9},
                                                      {"0110", 8},
                                                      {"1011", 7},
                                                      {"1100", 9},
                                                      {"0010", 12},
                                                      {"0001", 15},
                                                      {"1000", 20},
                                                      {"0101", 6}});
  histories.dates = dates;
  return histories;
}

TEST(TimeBetween, TheUnitIsTheOneNearestToTheIntervals) {
  const TimeBetween alike =
      time_between(dated({"2031-04-01", "2031-05-01", "2031-06-01", "2031-07-01"}), false, "auto");
  EXPECT_EQ(alike.unit, "interval");
  EXPECT_TRUE(alike.lengths.empty());
  const TimeBetween weeks =
      time_between(dated({"2031-04-01", "2031-04-08", "2031-04-18", "2032-04-01"}), false, "auto");
  EXPECT_EQ(weeks.unit, "week");
  EXPECT_EQ(weeks.lengths.front(), 1);
  EXPECT_NEAR(weeks.lengths.back(), 349 / 7.0, 1e-12);
  const TimeBetween years =
      time_between(dated({"2029-04-01", "2030-04-01", "2031-04-08", "2034-04-01"}), false, "auto");
  EXPECT_EQ(years.unit, "year");
  EXPECT_NEAR(years.lengths.back(), 1089 / 365.25, 1e-12);
  const TimeBetween same_date =
      time_between(dated({"2031-04-01", "2031-04-01", "2031-04-08", "2031-05-01"}), false, "day");
  EXPECT_EQ(same_date.lengths.front(), 0.5);
  CaptureHistories gathered = dated({"2029-04-01", "2029-04-11", "2030-04-06", "2032-04-05"});
  gathered.primary = {0, 0, 1, 2};
  EXPECT_NEAR(time_between(gathered, true, "day").lengths.front(), 365, 1e-12);  // from the middle, 6 April
  EXPECT_NEAR(time_between(gathered, true, "day").lengths.back(), 730, 1e-12);
  EXPECT_THROW(time_between(dated({}), false, "year"), InputError);
  EXPECT_THROW(time_between(dated({}), false, "fortnight"), InputError);
}

TEST(TimeBetween, TheReportSaysWhatSurvivalIsPer) {
  const CaptureHistories histories = dated({"2031-04-01", "2031-04-08", "2031-04-18", "2032-04-01"});
  const EstimateReport report = estimate(histories);
  EXPECT_EQ(report.time.unit, "week");
  const std::string text = to_text(report);
  EXPECT_NE(text.find("Survival and growth are per week, for the occasions lie from 7 to 349 days apart"),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("kept up all year, comes to"), std::string::npos) << text;
  EXPECT_EQ(to_json(report).at("survival_per"), "week");
  EstimateRequest request;
  request.card = {{"survival_per", "interval"}};
  const EstimateReport each = estimate(histories, request);
  EXPECT_EQ(each.time.unit, "interval");
  bool warned = false;
  for (const Message& sentence : each.warnings)
    warned = warned || sentence.words().find("from 7 to 349 days") != std::string::npos;
  EXPECT_TRUE(warned);
}

}  // namespace
}  // namespace evet::models
