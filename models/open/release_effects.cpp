#include "models/open/release_effects.h"

#include <algorithm>
#include <cmath>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/fit/logit_shift.h"
#include "models/fit/messages.h"
#include "models/fit/tape.h"
#include "models/open/messages.h"
#include "models/open/time_between.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

struct ReleaseLayout {
  std::size_t intervals = 0, recapture = 0;
  std::size_t first_shift = 0, after_shift = 0;
  ReleaseEffects effects;
  std::vector<double> lengths;  // of the intervals; empty: one each

  template <class T>
  T survival_eta(const std::vector<T>& theta, std::size_t i, bool first) const {
    T eta = theta[effects.survival_by_occasion ? i : 0];
    if (first && effects.own_first_interval) eta = eta + theta[first_shift];
    return over_time(eta, length_of(lengths, i));
  }
  // On the occasion that ends interval i.
  template <class T>
  T recapture_eta(const std::vector<T>& theta, std::size_t i, bool after) const {
    T eta = theta[recapture + (effects.recapture_by_occasion ? i : 0)];
    if (after && effects.own_after_capture) eta = eta + theta[after_shift];
    return eta;
  }
};

template <class T>
T log_likelihood_of(const SplitReleases& releases, const ReleaseLayout& at, const std::vector<T>& theta) {
  using std::exp;
  using std::log;
  const std::size_t n = at.intervals;
  std::vector<T> log_missed_on(n, T(0.0)), log_seen(n, T(0.0)), never(n + 1, T(1.0));
  for (std::size_t i = n; i-- > 0;) {  // not just caught, and not caught for the first time
    const T s = at.survival_eta(theta, i, false), p = at.recapture_eta(theta, i, false);
    log_missed_on[i] = log_logistic(s) + log_logistic(-p);
    log_seen[i] = log_logistic(s) + log_logistic(p);
    never[i] = logistic(-s) + logistic(s) * logistic(-p) * never[i + 1];
  }
  T sum = T(0.0);
  for (const bool first : {true, false}) {
    const MArray& array = first ? releases.first : releases.again;
    const VectorXd lost_sight = array.never_again();
    for (std::size_t i = 0; i < n; ++i) {
      const auto row = static_cast<Index>(i);
      if (array.released[row] == 0) continue;
      const T s = at.survival_eta(theta, i, first), p = at.recapture_eta(theta, i, true);
      if (lost_sight[row] > 0)
        sum += lost_sight[row] * log(logistic(-s) + logistic(s) * logistic(-p) * never[i + 1]);
      T passed = log_logistic(s) + log_logistic(-p);
      for (std::size_t j = i + 1; j <= n; ++j) {
        const double m = array.next(row, static_cast<Index>(j));
        if (m > 0) sum += m * (j == i + 1 ? log_logistic(s) + log_logistic(p) : passed + log_seen[j - 1]);
        if (j > i + 1) passed += log_missed_on[j - 1];
      }
    }
  }
  return sum;
}

std::string words_of(const ReleaseEffects& effects) {
  const auto how = [](bool by_occasion, bool own, const MessageText& with_own) {
    const Message terms = by_occasion ? messages::kByOccasion : messages::kConstant;
    return own ? Message(with_own, {{"terms", terms}}) : terms;
  };
  return Message(messages::kSurvivalModel,
                 {{"survival", how(effects.survival_by_occasion, effects.own_first_interval,
                                   messages::kOwnAfterFirstCapture)},
                  {"recapture", how(effects.recapture_by_occasion, effects.own_after_capture,
                                    messages::kOwnJustAfterCapture)}})
      .words();
}

Parameter numbered(Quantity quantity, bool many, std::size_t i) {
  if (!many) return {quantity};
  return {quantity, static_cast<int>(i)};
}

Parameter shift_of(Quantity quantity, const MessageText& about) {
  return {quantity, {}, {}, Parameter::Kind::shift, &about};
}

// A chance on its logit scale, by the delta method.
Estimate chance(const Parameter& what, const FittedModel& model,
                const std::function<double(const VectorXd&)>& eta, double level) {
  Estimate estimate = estimate_of(what);
  estimate.undefined = why_undefined(model.fit, eta);
  estimate.intervals = {{0, 1, level, messages::kIntervalNoInformation}};
  if (!estimate.undefined.empty()) return estimate;
  const double x = eta(model.fit.theta), sd = std::sqrt(delta_variance(model.fit, eta)),
               half = normal_point(level) * sd;
  estimate.value = logistic(x);
  estimate.standard_error = logistic(x) * logistic(-x) * sd;
  if (sd > 0)
    estimate.intervals = {{logistic(x - half), logistic(x + half), level, messages::kIntervalNormalOnLogit}};
  return estimate;
}

// Survival and recapture one by one or the same throughout; a shift for each effect.
ReleaseLayout add_parameters(Likelihood& likelihood, const ReleaseEffects& effects, std::size_t intervals,
                             const std::vector<double>& lengths) {
  ReleaseLayout at;
  at.intervals = intervals;
  at.effects = effects;
  at.lengths = lengths;
  for (std::size_t i = 0; i < (effects.survival_by_occasion ? at.intervals : 1); ++i)
    likelihood.add(numbered(Quantity::survival, effects.survival_by_occasion, i + 1), Link::logit,
                   start_per_unit(0.7, at.lengths));
  at.recapture = likelihood.parameters.size();
  for (std::size_t i = 0; i < (effects.recapture_by_occasion ? at.intervals : 1); ++i)
    likelihood.add(numbered(Quantity::recapture, effects.recapture_by_occasion, i + 2), Link::logit, 0.5);
  at.first_shift = likelihood.parameters.size();
  if (effects.own_first_interval)
    add_logit_shift(likelihood, shift_of(Quantity::survival, messages::kAfterFirstCapture));
  at.after_shift = likelihood.parameters.size();
  if (effects.own_after_capture)
    add_logit_shift(likelihood, shift_of(Quantity::recapture, messages::kAfterACapture));
  return at;
}

// The shifted chance itself: the first value of its quantity with the shift added.
void add_shifted(FittedModel& model, Quantity quantity, const MessageText& word, std::size_t value,
                 std::size_t shift, double level) {
  Parameter what{quantity};
  what.kind = Parameter::Kind::inner;
  what.word = &word;
  model.estimates.push_back(chance(
      what, model,
      [&](const VectorXd& x) { return x[static_cast<Index>(value)] + x[static_cast<Index>(shift)]; }, level));
}

}  // namespace

FittedModel fit_release_effects(const CaptureHistories& histories, const ReleaseEffects& effects,
                                const ModelOptions& options) {
  histories.check();
  if (histories.occasion_count() < 3)
    throw InputError(messages::kItemSurvivalAfterTheFirstCapture, messages::kFewerThanThree,
                     messages::kGiveThreeOrLeaveOut);
  const SplitReleases releases =
      split_releases(histories, {std::vector<std::size_t>(histories.animal_count(), 0), {0}}).front();
  FittedModel model;
  model.name = "survival";
  model.description = words_of(effects);
  Likelihood& likelihood = model.likelihood;
  const ReleaseLayout at =
      add_parameters(likelihood, effects, histories.occasion_count() - 1, options.interval_lengths);
  likelihood.minus_log_likelihood = [=](const VectorXd& x, VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood_of(releases, at, theta); }, x, gradient);
  };
  model.fit = fit(likelihood, {options.seed, true, options.overdispersion});
  model.parameters = model.fit.rank;
  model.log_likelihood = model.fit.log_likelihood;
  model.sample_size = releases.first.released.sum() + releases.again.released.sum();

  for (Index i = 0; i < model.fit.theta.size(); ++i)
    model.estimates.push_back(natural_estimate(likelihood, model.fit, i, options.level, options.profile));
  if (effects.own_first_interval)
    add_shifted(model, Quantity::survival, messages::kSurvivalAfterFirst, 0, at.first_shift, options.level);
  if (effects.own_after_capture)
    add_shifted(model, Quantity::recapture, messages::kRecaptureJustAfter, at.recapture, at.after_shift,
                options.level);
  Estimate& first = model.estimates.front();
  first.warnings = model.fit.warnings();
  first.source =
      "Pradel, Hines, Lebreton & Nichols (1997), Biometrics 53:60-72; Cormack (1964), Biometrika 51:429-438";
  first.assumptions = {
      messages::kRecaughtAlikeAsSaid,
      effects.own_first_interval ? messages::kResidentsAfterFirst : messages::kMarkedLivedOnAlike,
      messages::kLeftForGood, messages::kShortOccasions};
  return model;
}

}  // namespace evet::models
