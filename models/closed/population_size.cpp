#include "models/closed/population_size.h"

#include <algorithm>
#include <cmath>

#include "models/base/messages.h"
#include "models/closed/messages.h"
#include "models/fit/messages.h"

namespace evet::models {
namespace {

using Eigen::Index;

// Tails of Stirling's series for ln Gamma(x + 1) and of its derivative, x large.
double stirling_tail(double x) {
  return 1 / (12 * x) - 1 / (360 * x * x * x) + 1 / (1260 * x * x * x * x * x);
}
double digamma_tail(double x) {
  return 1 / (2 * x) - 1 / (12 * x * x) + 1 / (120 * x * x * x * x);
}

// More than fifty times the number seen, and known to no better than a factor of e^10 either way.
bool is_level(const Fit& fit, Index which, double seen) {
  return fit.theta[which] > std::log(seen + 1) + 4 && fit.covariance(which, which) > 100;
}

// A chance of capture before the first one, of all animals or of one kind of them.
bool is_first_capture(const Likelihood& likelihood, std::size_t at) {
  const Parameter& parameter = likelihood.parameters[at];
  return likelihood.links[at] == Link::logit && parameter.quantity == Quantity::capture;
}

double slope_of_log_ways(double seen, double unseen) {
  if (unseen < 50) return boost::math::digamma(unseen + seen + 1) - boost::math::digamma(unseen + 1);
  return std::log1p(seen / unseen) + digamma_tail(unseen + seen) - digamma_tail(unseen);
}

}  // namespace

double log_ways(double seen, double unseen) {
  if (unseen < 50) return std::lgamma(unseen + seen + 1) - std::lgamma(unseen + 1);
  const double all = unseen + seen;
  return seen * std::log(all) + (unseen + 0.5) * std::log1p(seen / unseen) - seen + stirling_tail(all) -
         stirling_tail(unseen);
}

Var log_ways(double seen, const Var& unseen) {
  return unary(log_ways(seen, unseen.value), unseen, slope_of_log_ways(seen, unseen.value));
}

Parameter chance_of_capture(std::optional<int> occasion) {
  return {Quantity::capture, occasion, {}, Parameter::Kind::value, {}, &messages::kChanceP};
}
Parameter chance_again() {
  return {Quantity::recapture, {}, {}, Parameter::Kind::value, {}, &messages::kChanceC};
}
Parameter inner(const MessageText& word, std::optional<int> occasion) {
  return {Quantity::other, occasion, {}, Parameter::Kind::inner, {}, &word};
}

Index add_population_size(Likelihood& likelihood, double seen, double unseen_start) {
  const Index i = likelihood.add({Quantity::number}, Link::log, std::max(0.5, unseen_start));
  likelihood.lower[i] = -19;
  likelihood.low_end[i] = -9;
  likelihood.high_end[i] = std::log(seen + 1) + 9;
  likelihood.upper[i] = likelihood.high_end[i] + 5;
  likelihood.start[i] = std::min(likelihood.start[i], likelihood.high_end[i] - 1);
  return i;
}

double guess_unseen(const ClosedCounts& counts) {
  const double once = counts.frequencies[0];
  const double twice = counts.frequencies.size() > 1 ? counts.frequencies[1] : 0;
  return std::max(0.5, once * (once - 1) / (2 * (twice + 1)));
}

Estimate population_estimate(const FittedModel& model, Index which, double seen, const ModelOptions& options,
                             double textbook_se) {
  Estimate estimate = estimate_of({Quantity::number});
  estimate.details["counted"] = seen;
  const Fit& fit = model.fit;
  const double coordinate = fit.theta[which];
  const double unseen = std::exp(coordinate);
  const bool estimable = !fit.unidentified[static_cast<std::size_t>(which)];
  estimate.warnings = fit.warnings();
  const auto profile = [&] {
    const Interval on_scale = profile_interval(model.likelihood, fit, which, options.level);
    return Interval{seen + std::exp(on_scale.lower),
                    std::isfinite(on_scale.upper) ? seen + std::exp(on_scale.upper) : kInfinity,
                    options.level, on_scale.method};
  };
  if (!fit.converged) {
    estimate.undefined = messages::kSearchNotSettled;
  } else if (coordinate > model.likelihood.high_end[which] || is_level(fit, which, seen)) {
    estimate.value = kInfinity;
    estimate.undefined = messages::kBetterTheLarger;
    estimate.warnings.push_back(messages::kFirstCapturesStayed);
  } else if (!estimable) {
    estimate.undefined = messages::kNumberNotToldApart;
  } else if (coordinate < model.likelihood.low_end[which]) {
    estimate.value = seen;
    estimate.standard_error = 0;
    estimate.intervals.push_back(
        options.profile && fit.at_boundary.size() <= 3
            ? profile()
            : Interval{seen, kInfinity, options.level, messages::kIntervalNoInformation});
    estimate.warnings.push_back(messages::kEveryAnimalSeen);
    return estimate;
  } else {
    estimate.value = seen + unseen;
    const double observed = unseen * std::sqrt(std::max(0.0, fit.covariance(which, which)));
    estimate.standard_error = textbook_se >= 0 ? textbook_se : observed;
    estimate.details["se_observed_information"] = observed;
    // The profile is the better one, above all for few animals; by many parameters it takes long, and with
    // several at their ends it says little.
    if (options.profile && fit.at_boundary.size() <= 2 && fit.theta.size() <= 40)
      estimate.intervals.push_back(profile());
    estimate.intervals.push_back(
        log_normal_interval(estimate.value, estimate.standard_error, seen, options.level));
    return estimate;
  }
  const bool profiled = std::isinf(estimate.value) && options.profile && fit.at_boundary.size() <= 3;
  estimate.intervals.push_back(
      profiled ? profile() : Interval{seen, kInfinity, options.level, messages::kIntervalNoInformation});
  return estimate;
}

void finish_closed(FittedModel& model, const ClosedCounts& counts, const ModelOptions& options) {
  // Far out the likelihood is all but level in the number: a second search starts from few animals unseen.
  if (!model.likelihood.parameters.empty() &&
      model.likelihood.parameters.front().quantity == Quantity::number &&
      model.likelihood.start[0] < model.likelihood.high_end[0]) {
    Eigen::VectorXd start = model.likelihood.start;
    const double more = (counts.seen + std::exp(start[0])) / (counts.seen + 0.3);
    start[0] = std::log(0.3);
    for (Index i = 1; i < start.size(); ++i) {
      const auto at = static_cast<std::size_t>(i);
      if (!is_first_capture(model.likelihood, at)) continue;
      const double p = std::min(0.98, more * logistic(start[i]));
      start[i] = std::log(p / (1 - p));
    }
    model.likelihood.further_starts.push_back(start);
  }
  model.fit = fit(model.likelihood, {options.seed, true, options.overdispersion});
  model.parameters = model.fit.rank;
  model.log_likelihood = model.fit.log_likelihood;
  model.sample_size = counts.seen * counts.occasions;
}

Sentences thin_data_warnings(const ClosedCounts& counts) {
  Sentences warnings;
  const double recaptures = counts.captures() - counts.seen;
  if (recaptures == 0)
    warnings.push_back(messages::kNoneTwice);
  else if (recaptures < 10)
    warnings.push_back(messages::kFewerThanTenRough);
  if (counts.captures() < 0.1 * counts.seen * counts.occasions) warnings.push_back(messages::kSeldomCaught);
  return warnings;
}

Sentences closed_assumptions() {
  return {messages::kNoneCameOrWent, messages::kEachRecognised, messages::kCaughtIndependently};
}

}  // namespace evet::models
