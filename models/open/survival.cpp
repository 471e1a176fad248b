#include "models/open/survival.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/fit/chance_estimates.h"
#include "models/fit/tape.h"
#include "models/open/messages.h"
#include "models/open/time_between.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

struct SurvivalModel {
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

// Survival and recapture by occasion: only their last product is known.
void add_last_product(FittedModel& fitted, Index survival, Index recapture, double length, double level) {
  for (const Index i : {survival, recapture})
    if (!fitted.fit.unidentified[static_cast<std::size_t>(i)]) return;
  Parameter last{Quantity::survival};
  last.kind = Parameter::Kind::product;
  last.word = &messages::kLastProduct;
  const auto product = [=](const VectorXd& x) {
    const double log_product = length * log_logistic(x[survival]) + log_logistic(x[recapture]);
    return log_product - log1m_exp(log_product);  // logit of the product
  };
  fitted.estimates.push_back(chance_estimate(last, fitted.fit, product, level));
}

FittedModel finish(const std::shared_ptr<SurvivalModel>& model, Likelihood likelihood, const Terms& survival,
                   const Terms& recapture, const ModelOptions& options) {
  FittedModel fitted;
  fitted.likelihood = std::move(likelihood);
  fitted.name = "survival";
  fitted.description =
      Message(messages::kSurvivalModel, {{"survival", survival.words()}, {"recapture", recapture.words()}})
          .words();
  fitted.likelihood.minus_log_likelihood = [model](const VectorXd& x, VectorXd* gradient) {
    return model->minus_log_likelihood(x, gradient);
  };
  fitted.fit = fit(fitted.likelihood, {options.seed, true, options.overdispersion});
  fitted.parameters = fitted.fit.rank;
  fitted.log_likelihood = fitted.fit.log_likelihood;
  for (const MArray& array : model->arrays) fitted.sample_size += array.released.sum();
  return fitted;
}

void describe_survival(FittedModel& fitted) {
  if (fitted.estimates.empty()) return;
  Estimate& first = fitted.estimates.front();
  first.warnings = fitted.fit.warnings();
  first.assumptions = {messages::kRecaughtAlikeAsSaid, messages::kMarkedLivedOnLikewise,
                       messages::kLeftForGood, messages::kShortOccasions};
  first.source = "Cormack (1964), Biometrika 51:429-438; Lebreton et al. (1992), Ecol. Monogr. 62:67-118";
}

}  // namespace

FittedModel fit_survival(const CaptureHistories& histories, const Terms& survival, const Terms& recapture,
                         const ModelOptions& options) {
  histories.check();
  if (survival.response || recapture.response)
    throw InputError(messages::kItemResponseToCapture, messages::kTermOfClosed, messages::kLeaveOutOfBoth);
  const Units units = make_units(histories, {survival, recapture});
  const std::size_t intervals = histories.occasion_count() - 1;
  std::vector<MArray> arrays = m_arrays(histories, units);
  Likelihood likelihood;
  Predictor s({Quantity::survival}, survival, histories, units, 0, intervals,
              start_per_unit(0.7, options.interval_lengths), likelihood);
  Predictor r({Quantity::recapture}, recapture, histories, units, 1, intervals, 0.5, likelihood);
  auto model = std::make_shared<SurvivalModel>(
      SurvivalModel{std::move(arrays), std::move(s), std::move(r), options.interval_lengths});
  FittedModel fitted = finish(model, std::move(likelihood), survival, recapture, options);
  add_chance_estimates(fitted, Quantity::survival, survival, model->survival, histories, units, 0, options);
  add_chance_estimates(fitted, Quantity::recapture, recapture, model->recapture, histories, units, 1,
                       options);
  if (survival.plain() && recapture.plain() && survival.occasion && recapture.occasion)
    add_last_product(fitted, model->recapture.first() - 1, fitted.fit.theta.size() - 1,
                     model->length(static_cast<Index>(intervals) - 1), options.level);
  describe_survival(fitted);
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
  auto model = std::make_shared<SurvivalModel>(
      SurvivalModel{{array}, std::move(s), std::move(r), options.interval_lengths});
  FittedModel fitted = finish(model, std::move(likelihood), survival, recapture, options);
  add_chance_estimates(fitted, Quantity::survival, survival, model->survival, labels, units, 0, options);
  add_chance_estimates(fitted, Quantity::recapture, recapture, model->recapture, labels, units, 1, options);
  if (survival_by_occasion && recapture_by_occasion)
    add_last_product(fitted, model->recapture.first() - 1, fitted.fit.theta.size() - 1,
                     model->length(static_cast<Index>(intervals) - 1), options.level);
  describe_survival(fitted);
  return fitted;
}

}  // namespace evet::models
