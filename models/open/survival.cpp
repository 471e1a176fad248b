#include "models/open/survival.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "models/base/input_error.h"
#include "models/fit/tape.h"
#include "models/open/time_between.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

struct Model {
  std::vector<MArray> arrays;
  Predictor survival, recapture;
  std::vector<double> lengths;  // of the intervals; empty: one each

  double minus_log_likelihood(const VectorXd& theta, VectorXd* gradient) const {
    const MatrixXd per_unit = survival.eta(theta), r = recapture.eta(theta);
    MatrixXd s = per_unit;
    for (Index i = 0; i < s.cols(); ++i)
      for (Index u = 0; u < s.rows(); ++u) s(u, i) = over_time(per_unit(u, i), length(i));
    MatrixXd s_slope(s.rows(), s.cols()), r_slope(r.rows(), r.cols());
    double sum = 0;
    VectorXd one, other;
    for (std::size_t u = 0; u < arrays.size(); ++u) {
      const Index row = static_cast<Index>(u);
      sum += release_log_likelihood(arrays[u], s.row(row), r.row(row), gradient ? &one : nullptr,
                                    gradient ? &other : nullptr);
      if (!gradient) continue;
      s_slope.row(row) = one;
      r_slope.row(row) = other;
    }
    if (gradient) {
      for (Index i = 0; i < s.cols(); ++i)
        for (Index u = 0; u < s.rows(); ++u) s_slope(u, i) *= over_time_slope(per_unit(u, i), length(i));
      *gradient = VectorXd::Zero(theta.size());
      survival.chain(-s_slope, *gradient);
      recapture.chain(-r_slope, *gradient);
    }
    return -sum;
  }

  double length(Index interval) const { return length_of(lengths, static_cast<std::size_t>(interval)); }
};

// A probability by its linear predictor: standard error by the delta method, interval on the logit scale.
Estimate probability(const Parameter& what, const Fit& fit, const std::function<double(const VectorXd&)>& eta,
                     double level) {
  Estimate estimate = estimate_of(what);
  estimate.undefined = why_undefined(fit, eta);
  if (!estimate.undefined.empty()) {
    estimate.intervals = {{0, 1, level, "no information"}};
    return estimate;
  }
  const double x = eta(fit.theta), sd = std::sqrt(delta_variance(fit, eta));
  estimate.value = std::abs(x) > 10 ? std::round(logistic(x)) : logistic(x);
  estimate.standard_error = logistic(x) * logistic(-x) * sd;
  const double half = normal_point(level) * sd;
  estimate.intervals = {{logistic(x - half), logistic(x + half), level, "normal on the logit scale"}};
  if (estimate.value == 0) estimate.intervals.front().lower = 0;
  if (estimate.value == 1) estimate.intervals.front().upper = 1;
  return estimate;
}

// At the end of its range the delta method claims certainty: the profile of the predictor does not.
void profile_at_end(Estimate& estimate, const FittedModel& fitted,
                    const std::function<double(const VectorXd&)>& eta, const ModelOptions& options) {
  if (!estimate.undefined.empty() || (estimate.value != 0 && estimate.value != 1)) return;
  estimate.standard_error = 0;
  Interval interval{-kInfinity, kInfinity, options.level, "whole range, at its end"};
  if (options.profile && fitted.fit.at_boundary.size() <= 3) {
    const VectorXd zero = VectorXd::Zero(fitted.fit.theta.size());
    VectorXd weights = zero;  // eta is linear in theta
    for (Index i = 0; i < zero.size(); ++i) weights[i] = eta(VectorXd::Unit(zero.size(), i)) - eta(zero);
    interval = profile_interval(fitted.likelihood, fitted.fit, weights, options.level);
  }
  estimate.intervals = {
      {logistic(interval.lower), logistic(interval.upper), interval.level, interval.method}};
}

bool plain(const Terms& terms) {
  return terms.groups.empty() && terms.covariates.empty() && terms.occasion_covariates.empty();
}

Parameter of_animal(Parameter what, const Terms& terms, const CaptureHistories& histories,
                    std::size_t animal) {
  for (const std::string& name : terms.groups)
    what.groups.emplace_back(name, histories.groups.at(name)[animal]);
  return what;
}

void add_probabilities(FittedModel& fitted, Quantity what, const Terms& terms, const Predictor& predictor,
                       const CaptureHistories& histories, const Units& units, std::size_t from,
                       const ModelOptions& options) {
  const double level = options.level;
  const bool profile = options.profile;
  if (plain(terms)) {
    for (Index i = predictor.first(); i < predictor.first() + predictor.size(); ++i)
      fitted.estimates.push_back(natural_estimate(fitted.likelihood, fitted.fit, i, level, profile));
    return;
  }
  const bool varies = terms.occasion || terms.group_by_occasion || !terms.occasion_covariates.empty();
  // One value for each level of the groups, at the mean of every covariate of the animals.
  std::vector<Parameter> done;
  for (std::size_t u = 0; u < units.first_animal.size(); ++u) {
    const Parameter of_level = of_animal({what}, terms, histories, units.first_animal[u]);
    if (std::find(done.begin(), done.end(), of_level) != done.end()) continue;
    done.push_back(of_level);
    const Index columns = predictor.eta(fitted.fit.theta).cols();
    for (Index j = 0; j < (varies ? columns : 1); ++j) {
      Parameter one = of_level;
      if (varies) one.index = static_cast<int>(from) + static_cast<int>(j) + 1;
      const auto eta = [&](const VectorXd& x) { return predictor.eta_at_means(x)(static_cast<Index>(u), j); };
      fitted.estimates.push_back(probability(one, fitted.fit, eta, level));
      for (const auto& [covariate, mean] : predictor.means()) fitted.estimates.back().at[covariate] = mean;
      profile_at_end(fitted.estimates.back(), fitted, eta, options);
    }
  }
  for (Index i = predictor.first(); i < predictor.first() + predictor.size(); ++i) {
    if (fitted.likelihood.links[static_cast<std::size_t>(i)] != Link::identity) continue;
    Estimate slope = natural_estimate(fitted.likelihood, fitted.fit, i, level, profile);
    const double scale = predictor.scale(i);
    slope.value /= scale;
    slope.standard_error /= scale;
    for (Interval& interval : slope.intervals)
      interval = {interval.lower / scale, interval.upper / scale, interval.level, interval.method};
    fitted.estimates.push_back(slope);
  }
}

// Survival and recapture by occasion: only their last product is known.
void add_last_product(FittedModel& fitted, Index survival, Index recapture, double length, double level) {
  for (const Index i : {survival, recapture})
    if (!fitted.fit.unidentified[static_cast<std::size_t>(i)]) return;
  Parameter last{Quantity::survival};
  last.kind = Parameter::Kind::product;
  last.word = "survival x recapture, last";
  const auto product = [=](const VectorXd& x) {
    const double log_product = length * log_logistic(x[survival]) + log_logistic(x[recapture]);
    return log_product - log1m_exp(log_product);  // logit of the product
  };
  fitted.estimates.push_back(probability(last, fitted.fit, product, level));
}

FittedModel finish(const std::shared_ptr<Model>& model, Likelihood likelihood, const Terms& survival,
                   const Terms& recapture, const ModelOptions& options) {
  FittedModel fitted;
  fitted.likelihood = std::move(likelihood);
  fitted.name = "survival";
  fitted.description = "survival " + survival.words() + "; recapture " + recapture.words();
  fitted.likelihood.minus_log_likelihood = [model](const VectorXd& x, VectorXd* gradient) {
    return model->minus_log_likelihood(x, gradient);
  };
  fitted.fit = fit(fitted.likelihood, {options.seed, true, options.overdispersion});
  fitted.parameters = fitted.fit.rank;
  fitted.log_likelihood = fitted.fit.log_likelihood;
  for (const MArray& array : model->arrays) fitted.sample_size += array.released.sum();
  return fitted;
}

void describe(FittedModel& fitted) {
  if (fitted.estimates.empty()) return;
  Estimate& first = fitted.estimates.front();
  first.warnings = fitted.fit.warnings();
  first.assumptions = {
      "Every marked animal alive on an occasion had the same chance of recapture, as far as the model does "
      "not say otherwise.",
      "Every marked animal alive just after an occasion had the same chance of surviving to the next, "
      "likewise.",
      "Leaving for good counts as death; an animal that left did not come back.",
      "No animal lost its identity, and occasions were short against the time between them."};
  first.source = "Cormack (1964), Biometrika 51:429-438; Lebreton et al. (1992), Ecol. Monogr. 62:67-118";
}

}  // namespace

FittedModel fit_survival(const CaptureHistories& histories, const Terms& survival, const Terms& recapture,
                         const ModelOptions& options) {
  histories.check();
  if (survival.response || recapture.response)
    throw InputError("response to capture", "it is a term of closed models",
                     "leave it out of survival and recapture");
  const Units units = make_units(histories, {survival, recapture});
  const std::size_t intervals = histories.occasion_count() - 1;
  std::vector<MArray> arrays = m_arrays(histories, units);
  Likelihood likelihood;
  Predictor s({Quantity::survival}, survival, histories, units, 0, intervals,
              start_per_unit(0.7, options.interval_lengths), likelihood);
  Predictor r({Quantity::recapture}, recapture, histories, units, 1, intervals, 0.5, likelihood);
  auto model =
      std::make_shared<Model>(Model{std::move(arrays), std::move(s), std::move(r), options.interval_lengths});
  FittedModel fitted = finish(model, std::move(likelihood), survival, recapture, options);
  add_probabilities(fitted, Quantity::survival, survival, model->survival, histories, units, 0, options);
  add_probabilities(fitted, Quantity::recapture, recapture, model->recapture, histories, units, 1, options);
  if (plain(survival) && plain(recapture) && survival.occasion && recapture.occasion)
    add_last_product(fitted, model->recapture.first() - 1, fitted.fit.theta.size() - 1,
                     model->length(static_cast<Index>(intervals) - 1), options.level);
  describe(fitted);
  return fitted;
}

FittedModel fit_survival(const MArray& array, bool survival_by_occasion, bool recapture_by_occasion,
                         const ModelOptions& options) {
  CaptureHistories labels;  // carries only the occasions
  for (int j = 0; j < array.occasions(); ++j) labels.occasions.push_back(std::to_string(j + 1));
  const Units units{{}, {0}};
  Terms survival, recapture;
  survival.occasion = survival_by_occasion;
  recapture.occasion = recapture_by_occasion;
  const std::size_t intervals = labels.occasion_count() - 1;
  Likelihood likelihood;
  Predictor s({Quantity::survival}, survival, labels, units, 0, intervals,
              start_per_unit(0.7, options.interval_lengths), likelihood);
  Predictor r({Quantity::recapture}, recapture, labels, units, 1, intervals, 0.5, likelihood);
  auto model = std::make_shared<Model>(Model{{array}, std::move(s), std::move(r), options.interval_lengths});
  FittedModel fitted = finish(model, std::move(likelihood), survival, recapture, options);
  add_probabilities(fitted, Quantity::survival, survival, model->survival, labels, units, 0, options);
  add_probabilities(fitted, Quantity::recapture, recapture, model->recapture, labels, units, 1, options);
  if (survival_by_occasion && recapture_by_occasion)
    add_last_product(fitted, model->recapture.first() - 1, fitted.fit.theta.size() - 1,
                     model->length(static_cast<Index>(intervals) - 1), options.level);
  describe(fitted);
  return fitted;
}

}  // namespace evet::models
