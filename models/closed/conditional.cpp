#include "models/closed/conditional.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "models/base/messages.h"
#include "models/closed/closed_counts.h"
#include "models/closed/exact_distinct.h"
#include "models/closed/messages.h"
#include "models/closed/population_size.h"
#include "models/fit/logit_shift.h"
#include "models/fit/tape.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// Per unit and occasion: first captures, animals not yet caught and missed, recaptures, marked and missed.
struct CatchSums {
  MatrixXd newly, not_yet, again, missed;
  VectorXd animals;
};

CatchSums sums_of(const CaptureHistories& histories, const Units& units) {
  const Index n = static_cast<Index>(units.first_animal.size()),
              t = static_cast<Index>(histories.occasion_count());
  CatchSums sums;
  for (MatrixXd* table : {&sums.newly, &sums.not_yet, &sums.again, &sums.missed})
    *table = MatrixXd::Zero(n, t);
  sums.animals = VectorXd::Zero(n);
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    const Index u = static_cast<Index>(units.unit_of_animal[i]);
    ++sums.animals[u];
    Index last = 0;
    for (Index j = 0; j < t; ++j)
      if (histories.was_caught(i, static_cast<std::size_t>(j))) last = j;
    bool marked = false;
    for (Index j = 0; j < t; ++j) {
      const bool caught = histories.was_caught(i, static_cast<std::size_t>(j));
      if (marked && histories.was_lost(i) && j > last) break;
      ++(marked ? (caught ? sums.again : sums.missed) : (caught ? sums.newly : sums.not_yet))(u, j);
      marked = marked || caught;
    }
  }
  return sums;
}

struct ConditionalModel {
  CatchSums sums;
  Predictor predictor;
  Index response = -1;  // coordinate of the shift after first capture

  // ln p* of each unit.
  VectorXd log_caught(const MatrixXd& eta) const {
    VectorXd none = VectorXd::Zero(eta.rows());
    for (Index j = 0; j < eta.cols(); ++j)
      for (Index u = 0; u < eta.rows(); ++u) none[u] += log_logistic(-eta(u, j));
    return none.unaryExpr([](double x) { return log1m_exp(std::min(x, -1e-300)); });
  }

  double minus_log_likelihood(const VectorXd& theta, VectorXd* gradient) const {
    const MatrixXd eta = predictor.eta(theta);
    const VectorXd log_star = log_caught(eta);
    const double shift = response >= 0 ? theta[response] : 0;
    double sum = -sums.animals.dot(log_star);
    MatrixXd slope = MatrixXd::Zero(eta.rows(), eta.cols());
    double shift_slope = 0;
    for (Index j = 0; j < eta.cols(); ++j)
      for (Index u = 0; u < eta.rows(); ++u) {
        const double x = eta(u, j), p = logistic(x);
        sum += sums.newly(u, j) * log_logistic(x) + sums.not_yet(u, j) * log_logistic(-x);
        slope(u, j) = sums.newly(u, j) * (1 - p) - sums.not_yet(u, j) * p;
        if (sums.again(u, j) + sums.missed(u, j) > 0) {
          const double c = logistic(x + shift);
          sum += sums.again(u, j) * log_logistic(x + shift) + sums.missed(u, j) * log_logistic(-x - shift);
          const double part = sums.again(u, j) * (1 - c) - sums.missed(u, j) * c;
          slope(u, j) += part;
          shift_slope += part;
        }
        slope(u, j) -= sums.animals[u] * p * std::expm1(-log_star[u]);  // (1 - p*) / p* times p
      }
    if (gradient) {
      *gradient = VectorXd::Zero(theta.size());
      predictor.chain(-slope, *gradient);
      if (response >= 0) (*gradient)[response] = -shift_slope;
    }
    return -sum;
  }
};

Estimate number(const Parameter& what, const ConditionalModel& model, const FittedModel& fitted,
                const std::vector<std::size_t>& animals, const CaptureHistories& histories,
                const Units& units, double level) {
  Estimate n = estimate_of(what);
  const double seen = static_cast<double>(animals.size());
  n.details["counted"] = seen;
  const auto total = [&](const VectorXd& theta) {
    const VectorXd log_star = model.log_caught(model.predictor.eta(theta));
    double sum = 0;
    for (const std::size_t i : animals)
      sum += std::exp(-log_star[static_cast<Index>(units.unit_of_animal[i])]);
    return sum;
  };
  const VectorXd log_star = model.log_caught(model.predictor.eta(fitted.fit.theta));
  double variance = 0;
  for (const std::size_t i : animals) {
    const double star = std::exp(log_star[static_cast<Index>(units.unit_of_animal[i])]);
    variance += (1 - star) / (star * star);
  }
  n.value = total(fitted.fit.theta);
  n.standard_error = std::sqrt(variance + delta_variance(fitted.fit, total));
  if (fitted.fit.converged && (n.value > 5000 * seen || !std::isfinite(n.value))) {
    n.value = kInfinity;
    n.standard_error = kUndefined;
    n.undefined = messages::kBetterTheLarger;
  } else if (n.undefined = why_undefined(fitted.fit, total); !n.undefined.empty()) {
    n.value = n.standard_error = kUndefined;
  }
  n.intervals = {log_normal_interval(n.value, n.standard_error, seen, level)};
  std::vector<double> catches(histories.occasion_count(), 0.0);
  for (const std::size_t i : animals)
    for (std::size_t j = 0; j < catches.size(); ++j) catches[j] += histories.was_caught(i, j) ? 1 : 0;
  widen_if_certain(n, catches, seen, level);
  if ((log_star.array() - log_star[0]).abs().maxCoeff() < 1e-14) n.details["p_star"] = std::exp(log_star[0]);
  return n;
}

// Searched for per standard deviation of a covariate, told per unit of it.
Estimate per_unit(Estimate estimate, double scale) {
  if (scale == 1) return estimate;
  estimate.value /= scale;
  estimate.standard_error /= scale;
  for (Interval& interval : estimate.intervals)
    interval = {interval.lower / scale, interval.upper / scale, interval.level, interval.method};
  return estimate;
}

// The chance of being caught again, where every first capture has one chance.
Estimate caught_again(const Fit& fit, double level) {
  Estimate again = estimate_of(chance_again());
  again.value = logistic(fit.theta[0] + fit.theta[1]);
  again.standard_error =
      std::sqrt(delta_variance(fit, [](const VectorXd& x) { return logistic(x[0] + x[1]); }));
  const double half =
      normal_point(level) * again.standard_error / std::max(1e-300, again.value * (1 - again.value));
  const double x = fit.theta[0] + fit.theta[1];
  again.intervals = {{logistic(x - half), logistic(x + half), level, messages::kIntervalNormalOnLogit}};
  return again;
}

}  // namespace

FittedModel fit_conditional(const CaptureHistories& histories, const Terms& capture,
                            const ModelOptions& options, const std::vector<std::string>& numbers_by) {
  histories.check();
  Terms numbers;
  numbers.groups = capture.groups;
  for (const std::string& name : numbers_by)
    if (std::find(numbers.groups.begin(), numbers.groups.end(), name) == numbers.groups.end())
      numbers.groups.push_back(name);
  check_terms(numbers, histories);
  FittedModel fitted;
  fitted.name = "conditional";
  fitted.description = Message(messages::kModelConditional, {{"terms", capture.words()}}).words();
  const Units units = make_units(histories, {capture});
  const ClosedCounts counts = closed_counts(histories);
  const double start =
      std::clamp(counts.captures() / (counts.occasions * (counts.seen + guess_unseen(counts))), 0.01, 0.9);
  auto model = std::make_shared<ConditionalModel>(
      ConditionalModel{sums_of(histories, units),
                       Predictor(chance_of_capture(), capture, histories, units, 0,
                                 histories.occasion_count(), start, fitted.likelihood),
                       -1});
  if (capture.response) model->response = add_logit_shift(fitted.likelihood, inner(messages::kResponseShift));
  fitted.likelihood.minus_log_likelihood = [model](const VectorXd& x, VectorXd* gradient) {
    return model->minus_log_likelihood(x, gradient);
  };
  finish_closed(fitted, counts, options);

  std::vector<std::size_t> everyone(histories.animal_count());
  for (std::size_t i = 0; i < everyone.size(); ++i) everyone[i] = i;
  Estimate n = number({Quantity::number}, *model, fitted, everyone, histories, units, options.level);
  n.warnings = fitted.fit.warnings();
  n.assumptions = {Message(messages::kChancesAsModelSays, {{"model", capture.words()}})};
  n.source = "Huggins (1989), Biometrika 76:133-140; Alho (1990), Biometrics 46:623-635";
  fitted.estimates = {n};
  for (const std::string& name : numbers.groups) {
    std::map<std::string, std::vector<std::size_t>> by_level;
    for (const std::size_t i : everyone) by_level[histories.groups.at(name)[i]].push_back(i);
    for (const auto& [level, animals] : by_level)
      fitted.estimates.push_back(number({Quantity::number, {}, {{name, level}}}, *model, fitted, animals,
                                        histories, units, options.level));
  }
  for (Index i = 0; i < fitted.fit.theta.size(); ++i) {
    const bool of_predictor = i < model->predictor.size();
    fitted.estimates.push_back(
        per_unit(natural_estimate(fitted.likelihood, fitted.fit, i, options.level, options.profile),
                 of_predictor ? model->predictor.scale(i) : 1));
  }
  if (capture.response && !capture.occasion && capture.groups.empty() && capture.covariates.empty() &&
      capture.occasion_covariates.empty())
    fitted.estimates.push_back(caught_again(fitted.fit, options.level));
  return fitted;
}

}  // namespace evet::models
