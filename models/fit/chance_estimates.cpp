#include "models/fit/chance_estimates.h"

#include <algorithm>
#include <cmath>

#include "models/base/messages.h"
#include "models/fit/tape.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

// At the end of its range the delta method claims certainty, and far from normal it promises too much: the
// profile of the predictor does neither.
void profile_where_better(Estimate& estimate, const FittedModel& fitted,
                          const std::function<double(const VectorXd&)>& eta, const ModelOptions& options) {
  if (!estimate.undefined.empty()) return;
  const bool at_end = estimate.value == 0 || estimate.value == 1;
  const bool traceable = options.profile && fitted.fit.at_boundary.size() <= 3;
  if (!at_end && !(traceable && fitted.likelihood.crooked) &&
      !(traceable && worth_a_profile(fitted.fit, std::sqrt(delta_variance(fitted.fit, eta)))))
    return;
  if (at_end) estimate.standard_error = 0;
  Interval interval{-kInfinity, kInfinity, options.level, messages::kIntervalWholeRange};
  if (traceable) {
    const VectorXd zero = VectorXd::Zero(fitted.fit.theta.size());
    VectorXd weights = zero;  // eta is linear in theta
    for (Index i = 0; i < zero.size(); ++i) weights[i] = eta(VectorXd::Unit(zero.size(), i)) - eta(zero);
    interval = profile_interval(fitted.likelihood, fitted.fit, weights, options.level);
  }
  const Interval better{logistic(interval.lower), logistic(interval.upper), interval.level, interval.method};
  if (at_end) estimate.intervals.clear();
  estimate.intervals.insert(estimate.intervals.begin(), better);
}

Parameter of_animal(Parameter what, const Terms& terms, const CaptureHistories& histories,
                    std::size_t animal) {
  for (const std::string& name : terms.groups)
    what.groups.emplace_back(name, histories.groups.at(name)[animal]);
  return what;
}

}  // namespace

Estimate chance_estimate(const Parameter& what, const Fit& fit,
                         const std::function<double(const VectorXd&)>& eta, double level) {
  Estimate estimate = estimate_of(what);
  estimate.undefined = why_undefined(fit, eta);
  if (!estimate.undefined.empty()) {
    estimate.intervals = {{0, 1, level, messages::kIntervalNoInformation}};
    return estimate;
  }
  const double x = eta(fit.theta), sd = std::sqrt(delta_variance(fit, eta));
  estimate.value = std::abs(x) > 10 ? std::round(logistic(x)) : logistic(x);
  estimate.standard_error = logistic(x) * logistic(-x) * sd;
  const double half = normal_point(level) * sd;
  estimate.intervals = {{logistic(x - half), logistic(x + half), level, messages::kIntervalNormalOnLogit}};
  if (estimate.value == 0) estimate.intervals.front().lower = 0;
  if (estimate.value == 1) estimate.intervals.front().upper = 1;
  return estimate;
}

void add_chance_estimates(FittedModel& fitted, Quantity what, const Terms& terms, const Predictor& predictor,
                          const CaptureHistories& histories, const Units& units, std::size_t from,
                          const ModelOptions& options) {
  const double level = options.level;
  const bool profile = options.profile;
  if (terms.plain()) {
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
      fitted.estimates.push_back(chance_estimate(one, fitted.fit, eta, level));
      for (const auto& [covariate, mean] : predictor.means()) fitted.estimates.back().at[covariate] = mean;
      profile_where_better(fitted.estimates.back(), fitted, eta, options);
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

}  // namespace evet::models
