// Limits of what rests on a chance at its end: held to a profile traced over a grid, and to a known truth.
#include "models/fit/off_the_end.h"

#include <gtest/gtest.h>

#include <cmath>

#include "models/base/random.h"
#include "models/fit/tape.h"
#include "models/open/entry_models.h"

namespace evet::models {
namespace {

using Eigen::VectorXd;

// `tries` of `tries` came off, and an estimate of 2 with a standard error of 0.3 beside them.
Likelihood certain(double tries) {
  Likelihood likelihood;
  likelihood.add({Quantity::survival}, Link::logit, 0.7);
  likelihood.add({Quantity::recruitment}, Link::identity, 1);
  likelihood.minus_log_likelihood = [tries](const VectorXd& x, VectorXd* gradient) {
    const double apart = (x[1] - 2) / 0.3;
    if (gradient) *gradient = Eigen::Vector2d(-tries * logistic(-x[0]), apart / 0.3);
    return -tries * std::log(logistic(x[0])) + apart * apart / 2;
  };
  return likelihood;
}

// Twice the least drop with 3 p + x = value, over a grid of p.
double drop_of_sum(double value, double tries) {
  double least = kInfinity;
  for (int i = 1; i <= 20000; ++i) {
    const double p = i / 20000.0, apart = (value - 3 * p - 2) / 0.3;
    least = std::min(least, -2 * tries * std::log(p) + apart * apart);
  }
  return least;
}

TEST(OffTheEnd, LimitsAreThoseOfTheProfile) {
  for (const double tries : {4.0, 10.0, 40.0}) {
    const Likelihood likelihood = certain(tries);
    const Fit at = fit(likelihood);
    ASSERT_EQ(at.at_boundary.size(), 1U);
    const auto sum = [](const VectorXd& x) { return 3 * logistic(x[0]) + x[1]; };
    const OffTheEnd off(likelihood, at, 0.95);
    EXPECT_TRUE(off.changes(sum));
    EXPECT_FALSE(off.changes([](const VectorXd& x) { return x[1]; }));
    const Interval limits = off.limits(sum);
    double lower = 5, upper = 5;
    while (drop_of_sum(lower, tries) < 3.8415) lower -= 0.002;
    while (drop_of_sum(upper, tries) < 3.8415) upper += 0.002;
    EXPECT_NEAR(limits.lower, lower, 0.03 * (5 - lower)) << tries;
    EXPECT_NEAR(limits.upper, upper, 0.03 * (upper - 5)) << tries;
  }
}

TEST(OffTheEnd, OverdispersionWidensThem) {
  const Likelihood likelihood = certain(10);
  const auto sum = [](const VectorXd& x) { return 3 * logistic(x[0]) + x[1]; };
  const Interval plain = OffTheEnd(likelihood, fit(likelihood), 0.95).limits(sum);
  const Interval wider = OffTheEnd(likelihood, fit(likelihood, {1, true, 2.0}), 0.95).limits(sum);
  EXPECT_NEAR((wider.upper - 5) / (plain.upper - 5), std::sqrt(2), 0.02);
  EXPECT_LT(wider.lower, plain.lower);
}

TEST(OffTheEnd, NothingIsDoneWhereNoneLiesThere) {
  Likelihood likelihood = certain(10);
  const Objective before = likelihood.minus_log_likelihood;
  likelihood.minus_log_likelihood = [before](const VectorXd& x, VectorXd* gradient) {  // one of eleven failed
    const double value = before(x, gradient);
    if (gradient) (*gradient)[0] += logistic(x[0]);
    return value - std::log(logistic(-x[0]));
  };
  const OffTheEnd off(likelihood, fit(likelihood), 0.95);
  EXPECT_FALSE(off.changes([](const VectorXd& x) { return x[0]; }));
}

// As above, but what was measured is x + 3 p, so that x may be larger where p is smaller than its estimate of 1.
TEST(Profile, LetsGoOfWhatLiesAtAnEnd) {
  constexpr double kTries = 5;
  Likelihood likelihood = certain(kTries);
  likelihood.minus_log_likelihood = [](const VectorXd& x, VectorXd* gradient) {
    const double p = logistic(x[0]), apart = (x[1] + 3 * p - 5) / 0.3;
    if (gradient) *gradient = Eigen::Vector2d(-kTries * (1 - p) + apart * 3 * p * (1 - p) / 0.3, apart / 0.3);
    return -kTries * std::log(p) + apart * apart / 2;
  };
  const Fit at = fit(likelihood);
  ASSERT_TRUE(at.boundary[0]);
  double upper = 2, lower = 2;
  const auto drop = [](double x) {
    double least = kInfinity;
    for (int i = 1; i <= 20000; ++i) {
      const double p = i / 20000.0, apart = (x + 3 * p - 5) / 0.3;
      least = std::min(least, -2 * kTries * std::log(p) + apart * apart);
    }
    return least;
  };
  while (drop(lower) < 3.8415) lower -= 0.002;
  while (drop(upper) < 3.8415) upper += 0.002;
  const Interval profile = profile_interval(likelihood, at, 1, 0.95);
  EXPECT_NEAR(profile.lower, lower, 0.004);
  EXPECT_NEAR(profile.upper, upper, 0.004);
  EXPECT_GT(upper - 2, 1.3 * (2 - lower)) << "nothing is shown if p may as well stay at 1";
}

// Survival 0.8, capture 0.4.
CaptureHistories season(Random& random, const std::vector<int>& entrants = {200, 40, 30, 0, 0, 0}) {
  CaptureHistories h;
  for (int j = 0; j < 6; ++j) h.occasions.push_back(std::to_string(j + 1));
  for (std::size_t entry = 0; entry < entrants.size(); ++entry)
    for (int i = 0; i < entrants[entry]; ++i) {
      std::vector<std::uint8_t> row(6, 0);
      bool caught = false;
      for (std::size_t j = entry; j < 6 && (j == entry || random.chance(0.8)); ++j) {
        row[j] = random.chance(0.4) ? 1 : 0;
        caught = caught || row[j];
      }
      if (!caught) continue;
      h.animals.push_back(std::to_string(h.animals.size()));
      h.caught.insert(h.caught.end(), row.begin(), row.end());
    }
  return h;
}

TEST(OffTheEnd, GrowthIsHeldWhereSurvivalIsEstimatedAsOne) {
  Random random(61);
  int at_end = 0, held = 0;
  for (int set = 0; set < 300; ++set) {
    EntryChoice choice;
    choice.survival.occasion = true;
    const CaptureHistories h = season(random);
    if (!fit_super_population(h, choice, {0.95, 1, false}).fit.boundary[4]) continue;
    const FittedModel model = fit_super_population(h, choice);
    ++at_end;
    for (const Estimate& estimate : model.estimates) {
      if (estimate.what != Parameter{Quantity::growth_rate, 5}) continue;
      const Interval& limits = estimate.intervals.front();
      held += limits.lower <= 0.8 && 0.8 <= limits.upper ? 1 : 0;
      EXPECT_GT(estimate.standard_error, 0);
    }
  }
  // Of 55 other such sets these limits held 43, those of the delta method 3. In such sets survival came out too high,
  // so that 95 of 100 cannot be asked of them; of the sets without, 98 of 100 are held.
  EXPECT_GE(at_end, 15);
  EXPECT_GE(held, 0.5 * at_end) << "of " << at_end;
}

const std::vector<int> kAsManyAsDie = {200, 40, 40, 40, 40, 40};

FittedModel growth_by_occasion(const CaptureHistories& histories, GrowthForm form) {
  return fit_growth(m_array(histories), {form, true, false, true});
}

const Estimate* named(const FittedModel& model, const Parameter& what) {
  for (const Estimate& estimate : model.estimates)
    if (estimate.what == what) return &estimate;
  return nullptr;
}

// The growth rate is a coordinate of its own in this form: its profile is known.
TEST(OffTheEnd, GrowthModelsHaveTheLimitsOfTheProfile) {
  Random random(62);
  int at_end = 0;
  for (int set = 0; set < 150; ++set) {
    const FittedModel model = growth_by_occasion(season(random, kAsManyAsDie), GrowthForm::growth);
    if (!model.fit.converged || model.fit.at_boundary.size() != 1 || !model.fit.boundary[4]) continue;
    ++at_end;
    const Interval profile = profile_interval(model.likelihood, model.fit, 10, 0.95);
    const Estimate* growth = named(model, {Quantity::growth_rate, 5});
    const double width = profile.upper - profile.lower;
    EXPECT_NEAR(std::log(growth->intervals.front().lower), profile.lower, 0.05 * width) << set;
    EXPECT_NEAR(std::log(growth->intervals.front().upper), profile.upper, 0.05 * width) << set;
    EXPECT_NEAR(growth->standard_error / growth->value, width / 2 / normal_point(0.95), 0.05 * width) << set;
  }
  EXPECT_GE(at_end, 8);
}

// So is recruitment here, and nobody came in at the end of the season.
TEST(OffTheEnd, NoRecruitmentIsNotTakenForCertain) {
  Random random(62);
  int at_end = 0;
  for (int set = 0; set < 80; ++set) {
    const FittedModel model = growth_by_occasion(season(random), GrowthForm::recruitment);
    if (!model.fit.converged || model.fit.at_boundary.size() != 1 || !model.fit.boundary[10]) continue;
    ++at_end;
    const Estimate* recruited = named(model, {Quantity::recruitment, 5});
    const double most = std::exp(profile_interval(model.likelihood, model.fit, 10, 0.95).upper);
    EXPECT_NEAR(recruited->intervals.front().upper, most, 0.05 * most) << set;
    EXPECT_GT(recruited->standard_error, 0);
  }
  EXPECT_GE(at_end, 4);
}

// A difference that may come out below nought has one scale, on either side of it.
TEST(Growth, RecruitmentHasLimitsAsFarBelowAsAbove) {
  Random random(63);
  const FittedModel model = growth_by_occasion(season(random), GrowthForm::growth);
  for (const int interval : {1, 2, 3}) {
    const Estimate* recruited = named(model, {Quantity::recruitment, interval});
    ASSERT_TRUE(recruited->undefined.empty());
    const Interval& limits = recruited->intervals.front();
    EXPECT_NEAR((limits.lower + limits.upper) / 2, recruited->value, 1e-9) << interval;
  }
}

}  // namespace
}  // namespace evet::models
