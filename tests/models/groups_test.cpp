// Groups and covariates in the models of numbers and growth: with every part by group they are the fits of each
// group by itself, which were held to published values without groups (the dipper data of Lebreton et al. 1992 in
// open_test.cpp, the robust design in robust_design_test.cpp).
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "gradient_check.h"
#include "models/base/input_error.h"
#include "models/base/random.h"
#include "models/closed/conditional.h"
#include "models/estimate.h"
#include "models/fit/tape.h"
#include "models/open/entry_models.h"
#include "models/report/report_text.h"
#include "models/robust/robust_design.h"

namespace evet::models {
namespace {

struct Pond {
  std::vector<int> entrants = {160, 50, 50, 50, 50, 50};
  double survival_female = 0.7, survival_male = 0.7, capture_female = 0.4, capture_male = 0.4;
  double passing_at_first = 0, passing_later = 0;
  std::vector<double> effort = {};  // shifts the logit of capture by itself
  int nights = 1;                   // each occasion a period of so many
};

struct Drawn {
  CaptureHistories histories;
  std::vector<double> females, present;
  std::vector<double> effort;
};

Drawn drawn(const Pond& pond, Random& random) {
  const std::size_t k = pond.entrants.size(), nights = static_cast<std::size_t>(pond.nights);
  Drawn out;
  out.females.assign(k, 0.0);
  out.present.assign(k, 0.0);
  CaptureHistories& h = out.histories;
  for (std::size_t j = 0; j < k * nights; ++j) {
    h.occasions.push_back(std::to_string(j + 1));
    if (nights > 1) h.primary.push_back(static_cast<int>(j / nights));
  }
  if (!pond.effort.empty()) h.occasion_covariates["effort"] = pond.effort;
  for (std::size_t entry = 0; entry < k; ++entry)
    for (int left = pond.entrants[entry]; left > 0; --left) {
      const bool male = left % 2 == 0,
                 passes = random.chance(entry == 0 ? pond.passing_at_first : pond.passing_later);
      std::vector<std::uint8_t> row(k * nights, 0);
      for (std::size_t j = entry; j < k; ++j) {
        if (j > entry && (passes || !random.chance(male ? pond.survival_male : pond.survival_female))) break;
        ++out.present[j];
        out.females[j] += male ? 0 : 1;
        for (std::size_t n = 0; n < nights; ++n) {
          double p = male ? pond.capture_male : pond.capture_female;
          if (!pond.effort.empty()) p = logistic(std::log(p / (1 - p)) + pond.effort[j]);
          row[j * nights + n] = random.chance(p) ? 1 : 0;
        }
      }
      if (std::count(row.begin(), row.end(), 1) == 0) continue;
      h.animals.push_back(std::to_string(h.animals.size() + 1));
      h.caught.insert(h.caught.end(), row.begin(), row.end());
      h.groups["sex"].push_back(male ? "male" : "female");
    }
  return out;
}

CaptureHistories of_sex(const CaptureHistories& histories, const std::string& sex) {
  std::vector<std::size_t> chosen;
  for (std::size_t i = 0; i < histories.animal_count(); ++i)
    if (histories.groups.at("sex")[i] == sex) chosen.push_back(i);
  return select_animals(histories, chosen);
}

const Estimate& estimate_of(const FittedModel& model, const Parameter& what) {
  for (const Estimate& estimate : model.estimates)
    if (estimate.what == what) return estimate;
  ADD_FAILURE() << what.name() << " is not given";
  static const Estimate none;
  return none;
}

Terms by(std::vector<std::string> groups, bool occasion = false) {
  Terms terms;
  terms.groups = std::move(groups);
  terms.occasion = occasion;
  return terms;
}

TEST(Groups, SuperPopulationOfEachSexIsThatOfItsOwn) {
  Random random(3);
  Pond pond;
  pond.survival_male = 0.8;
  pond.capture_male = 0.5;
  const CaptureHistories histories = drawn(pond, random).histories;
  EntryChoice choice;
  choice.survival = choice.capture = by({"sex"});
  const FittedModel both = fit_super_population(histories, choice);
  double log_likelihood = 0;
  for (const char* sex : {"female", "male"}) {
    const FittedModel alone =
        fit_super_population(m_array(of_sex(histories, sex)), {false, false, false, true});
    log_likelihood += alone.log_likelihood;
    for (const int i : {2, 4}) {
      const Estimate &of_both = estimate_of(both, {Quantity::number, i, {{"sex", sex}}}),
                     &of_one = estimate_of(alone, {Quantity::number, i});
      EXPECT_NEAR(of_both.value, of_one.value, 1e-3) << of_both.parameter;
      EXPECT_NEAR(of_both.standard_error, of_one.standard_error, 1e-3) << of_both.parameter;
    }
    EXPECT_NEAR(estimate_of(both, {Quantity::mean_growth, {}, {{"sex", sex}}}).value,
                estimate_of(alone, {Quantity::mean_growth}).value, 1e-5);
  }
  EXPECT_NEAR(both.log_likelihood, log_likelihood, 1e-5);
  testing::expect_gradient_of_differences(both, 0.1);
}

TEST(Groups, NumbersBySexAddUpAndLeaveTheTotalAlone) {
  Random random(4);
  const CaptureHistories histories = drawn({}, random).histories;
  EntryChoice choice;
  choice.numbers_by = {"sex"};
  const FittedModel parts = fit_super_population(histories, choice);
  const FittedModel whole = fit_super_population(m_array(histories), {false, false, false, true});
  EXPECT_EQ(parts.parameters, whole.parameters) << "rows with and without groups compare";
  for (const int i : {1, 3, 6}) {
    const Estimate& total = estimate_of(parts, {Quantity::number, i});
    const double sum = estimate_of(parts, {Quantity::number, i, {{"sex", "female"}}}).value +
                       estimate_of(parts, {Quantity::number, i, {{"sex", "male"}}}).value;
    EXPECT_NEAR(sum, total.value, 1e-6 * sum);
    EXPECT_NEAR(total.value, estimate_of(whole, {Quantity::number, i}).value, 1e-3);
  }
}

TEST(Groups, GrowthOfEachSexIsThatOfItsOwn) {
  Random random(5);
  Pond pond;
  pond.survival_male = 0.8;
  const CaptureHistories histories = drawn(pond, random).histories;
  for (const GrowthForm form : {GrowthForm::growth, GrowthForm::recruitment, GrowthForm::seniority}) {
    GrowthChoice choice;
    choice.form = form;
    choice.survival = choice.capture = choice.rate = by({"sex"});
    const FittedModel both = fit_growth(histories, choice);
    double log_likelihood = 0;
    for (const char* sex : {"female", "male"}) {
      const FittedModel alone = fit_growth(m_array(of_sex(histories, sex)), {form, false, false, false});
      log_likelihood += alone.log_likelihood;
      EXPECT_NEAR(estimate_of(both, {Quantity::growth_rate, {}, {{"sex", sex}}}).value,
                  estimate_of(alone, {Quantity::growth_rate}).value, 1e-4);
    }
    EXPECT_NEAR(both.log_likelihood, log_likelihood, 1e-5);
    testing::expect_gradient_of_differences(both, 0.05);
  }
}

TEST(Groups, RobustDesignOfEachSexIsThatOfItsOwn) {
  Random random(6);
  Pond pond;
  pond.survival_male = 0.85;
  pond.capture_male = 0.25;
  pond.nights = 3;
  const CaptureHistories histories = drawn(pond, random).histories;
  RobustChoice choice;
  choice.survival = choice.capture = by({"sex"});
  const FittedModel both = fit_robust(histories, choice);
  double log_likelihood = 0;
  for (const char* sex : {"female", "male"}) {
    const FittedModel alone = fit_robust(robust_counts(of_sex(histories, sex)), {});
    log_likelihood += alone.log_likelihood;
    const Estimate &of_both = estimate_of(both, {Quantity::number, 3, {{"sex", sex}}}),
                   &of_one = estimate_of(alone, {Quantity::number, 3});
    EXPECT_NEAR(of_both.value, of_one.value, 1e-3);
    EXPECT_NEAR(of_both.standard_error, of_one.standard_error, 1e-3);
  }
  EXPECT_NEAR(both.log_likelihood, log_likelihood, 1e-5);
  choice.capture_by_period = true;
  choice.emigration = Emigration::markov;
  testing::expect_gradient_of_differences(fit_robust(histories, choice), 0.1);
}

TEST(Groups, SlopeOnEffortIsFound) {
  Random random(7);
  Pond pond;
  pond.entrants = {400, 120, 120, 120, 120, 120};
  pond.effort = {-0.8, 0.6, -0.4, 0.9, 0.1, -0.6};
  const CaptureHistories histories = drawn(pond, random).histories;
  Terms linear;
  linear.occasion_covariates = {"effort"};
  EntryChoice choice;
  choice.capture = linear;
  const Parameter slope{Quantity::capture, {}, {}, Parameter::Kind::slope, "effort"};
  const FittedModel model = fit_super_population(histories, choice);
  EXPECT_NEAR(estimate_of(model, slope).value, 1, 4 * estimate_of(model, slope).standard_error);
  EXPECT_LT(estimate_of(model, slope).standard_error, 0.3);
  GrowthChoice growth;
  growth.capture = linear;
  const FittedModel rates = fit_growth(histories, growth);
  EXPECT_NEAR(estimate_of(rates, slope).value, 1, 4 * estimate_of(rates, slope).standard_error);
}

TEST(Groups, CovariatesOfAnimalsAreRefusedWhereSomeWereNeverCaught) {
  Random random(8);
  Pond pond;
  pond.nights = 2;
  CaptureHistories histories = drawn(pond, random).histories;
  histories.covariates["svl_mm"].assign(histories.animal_count(), 60);
  Terms linear;
  linear.covariates = {"svl_mm"};
  EntryChoice entry;
  entry.survival = linear;
  EXPECT_THROW(fit_super_population(histories, entry), InputError);
  GrowthChoice growth;
  growth.capture = linear;
  EXPECT_THROW(fit_growth(histories, growth), InputError);
  RobustChoice robust;
  robust.capture = linear;
  EXPECT_THROW(fit_robust(histories, robust), InputError);
  robust.capture = {};
  robust.capture.occasion_covariates = {"effort"};
  histories.occasion_covariates["effort"].assign(histories.occasion_count(), 1);
  robust.capture_by_period = true;
  EXPECT_THROW(fit_robust(histories, robust), InputError);
  EXPECT_THROW(fit_super_population(histories, {{}, {}, false, false, {"colour"}}), InputError);
}

TEST(Passing, ShareNumbersAndGrowthAreFound) {
  // Expected numbers: residents and those that pass; 0.4 of the later entrants are gone by the next occasion.
  Pond pond;
  pond.entrants = {300, 120, 120, 120, 120, 120};
  pond.passing_later = 0.4;
  Random random(9);
  constexpr int kSets = 40;
  double share = 0, ratio = 0, without = 0, growth = 0;
  for (int set = 0; set < kSets; ++set) {
    const Drawn survey = drawn(pond, random);
    EntryChoice choice;
    choice.passing = true;
    const FittedModel model = fit_super_population(survey.histories, choice, {0.95, 1, false});
    share += estimate_of(model, {Quantity::passing, 2}).value / kSets;
    ratio += estimate_of(model, {Quantity::number, 3}).value / survey.present[2] / kSets;
    growth += estimate_of(model, {Quantity::growth_rate, 3}).value / kSets;
    choice.passing = false;
    const FittedModel plain = fit_super_population(survey.histories, choice, {0.95, 1, false});
    without += estimate_of(plain, {Quantity::number, 3}).value / survey.present[2] / kSets;
  }
  EXPECT_NEAR(share, 0.4, 0.05);
  EXPECT_NEAR(ratio, 1, 0.03);
  EXPECT_GT(without, 1.05) << "taken for residents, they raise the numbers";
  // 282 + 48 before occasion 2, 269.4 + 48 before occasion 3, 260.6 + 48 before occasion 4.
  EXPECT_NEAR(growth, (260.58 + 48) / (269.4 + 48), 0.05);
}

TEST(Passing, WithNoneItIsThePlainModel) {
  Random random(10);
  const CaptureHistories histories = drawn({}, random).histories;
  EntryChoice choice;
  const FittedModel plain = fit_super_population(histories, choice);
  choice.passing = true;
  const FittedModel model = fit_super_population(histories, choice);
  EXPECT_GE(model.log_likelihood, plain.log_likelihood - 1e-6);
  Eigen::VectorXd theta(plain.fit.theta.size() + 2);  // survival, capture, two shares, entries
  theta << plain.fit.theta.head(2), -30, -30, plain.fit.theta.tail(plain.fit.theta.size() - 2);
  EXPECT_NEAR(-model.likelihood.minus_log_likelihood(theta, nullptr), plain.log_likelihood, 1e-6);
  testing::expect_gradient_of_differences(model, 0.05);
}

// All animals let go on the first occasion are new: by occasion, those that pass through count as dead there, and no
// animal caught before says otherwise.
TEST(PassingThrough, SurvivalOfTheFirstIntervalIsNotGivenWhereItCannotBeTold) {
  Random random(21);
  Pond pond;
  pond.entrants = {400, 50, 50, 50, 50, 50};
  pond.survival_female = pond.survival_male = 0.75;
  EstimateRequest request;
  request.plots = false;
  request.design = "open";
  const auto survival = [](const EstimateReport& report, int interval) {
    for (const Estimate& one : report.answer)
      if (one.what == Parameter{Quantity::survival, interval}) return one;
    return Estimate{};
  };
  CaptureHistories all = drawn(pond, random).histories;
  all.groups.clear();
  const EstimateReport residents = estimate(all, request);
  EXPECT_TRUE(survival(residents, 1).undefined.empty());
  EXPECT_NEAR(survival(residents, 1).value, 0.75, 0.15);
  pond.passing_at_first = 0.6;
  all = drawn(pond, random).histories;
  all.groups.clear();
  const EstimateReport passing = estimate(all, request);
  EXPECT_EQ(survival(passing, 1).undefined.code(), "not_told_from_passing") << survival(passing, 1).value;
  EXPECT_TRUE(std::isnan(survival(passing, 1).value));
  EXPECT_NEAR(survival(passing, 2).value, 0.75, 0.15);
}

TEST(Density, IsTheNumberOverTheArea) {
  Random random(12);
  Pond pond;
  pond.entrants = {120, 0, 0, 0, 0};
  pond.survival_female = pond.survival_male = 1;
  const CaptureHistories histories = drawn(pond, random).histories;
  EstimateRequest request;
  request.plots = false;
  request.design = "closed";
  request.area_m2 = 250;
  const EstimateReport report = estimate(histories, request);
  const Estimate& n = report.answer.front();
  const auto density = std::find_if(report.answer.begin(), report.answer.end(), [](const Estimate& one) {
    return one.what.quantity == Quantity::density && one.what.groups.empty();
  });
  ASSERT_NE(density, report.answer.end());
  EXPECT_NEAR(density->value, n.value / 2.5, 1e-9);
  EXPECT_NEAR(density->intervals.front().upper, n.intervals.front().upper / 2.5, 1e-9);
  request.area_m2 = -1;
  EXPECT_THROW(estimate(histories, request), InputError);
}

TEST(Density, EachPondHasItsOwnArea) {
  Random random(12);
  Pond pond;
  pond.entrants = {160, 0, 0, 0, 0};
  pond.survival_female = pond.survival_male = 1;
  CaptureHistories histories = drawn(pond, random).histories;
  histories.groups.clear();
  for (std::size_t i = 0; i < histories.animal_count(); ++i)
    histories.groups["pond"].push_back(i % 3 ? "Heron Pool" : "Mill Ditch");
  EstimateRequest request;
  request.plots = false;
  request.design = "closed";
  request.areas_m2 = {{"Heron Pool", 200}, {"Mill Ditch", 100}, {"a pond elsewhere", 900}};
  const auto of = [](const EstimateReport& report, Quantity quantity, const std::string& name) {
    for (const Estimate& one : report.answer)
      if (one.what.quantity == quantity &&
          (name.empty()
               ? one.what.groups.empty()
               : one.what.groups == std::vector<std::pair<std::string, std::string>>{{"pond", name}}))
        return one.value;
    return kUndefined;
  };
  const EstimateReport both = estimate(histories, request);
  for (const auto& [name, hundreds] : {std::pair{"", 3.0}, {"Heron Pool", 2.0}, {"Mill Ditch", 1.0}})
    EXPECT_NEAR(of(both, Quantity::density, name), of(both, Quantity::number, name) / hundreds, 1e-9) << name;
  request.areas_m2.erase("Mill Ditch");
  const EstimateReport one = estimate(histories, request);
  EXPECT_FALSE(std::isnan(of(one, Quantity::density, "Heron Pool")));
  EXPECT_TRUE(std::isnan(of(one, Quantity::density, "Mill Ditch")));
  EXPECT_TRUE(std::isnan(of(one, Quantity::density, ""))) << "the area of all is not known";
  request.areas_m2["Mill Ditch"] = 0;
  EXPECT_THROW(estimate(histories, request), InputError);
}

TEST(Groups, DefaultAnswersGiveNumbersBySex) {
  Random random(11);
  Pond pond;
  pond.capture_male = 0.5;
  CaptureHistories histories = drawn(pond, random).histories;
  EstimateRequest request;
  request.plots = false;
  const auto has = [](const EstimateReport& report, const Parameter& what) {
    return std::any_of(report.answer.begin(), report.answer.end(),
                       [&](const Estimate& one) { return one.what == what && std::isfinite(one.value); });
  };
  request.design = "open";
  EstimateReport report = estimate(histories, request);
  EXPECT_TRUE(has(report, {Quantity::number, 3, {{"sex", "male"}}}));
  EXPECT_TRUE(has(report, {Quantity::mean_growth, {}, {{"sex", "female"}}}) ||
              !has(report, {Quantity::mean_growth}));
  Pond closed;
  closed.entrants = {160, 0, 0, 0, 0, 0};
  closed.survival_female = closed.survival_male = 1;
  request.design = "closed";
  report = estimate(drawn(closed, random).histories, request);
  EXPECT_TRUE(has(report, {Quantity::number}));
  EXPECT_TRUE(has(report, {Quantity::number, {}, {{"sex", "female"}}}));
  EXPECT_NE(to_text(report).find("By sex: about"), std::string::npos);
  pond.nights = 3;
  histories = drawn(pond, random).histories;
  request.design = "robust";
  report = estimate(histories, request);
  EXPECT_TRUE(has(report, {Quantity::number, 2, {{"sex", "male"}}}));
  EXPECT_TRUE(has(report, {Quantity::mean_growth}));
}

}  // namespace
}  // namespace evet::models
