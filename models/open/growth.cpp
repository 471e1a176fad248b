#include <algorithm>
#include <cmath>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/base/parameter_words.h"
#include "models/fit/chance_estimates.h"
#include "models/fit/linear_part.h"
#include "models/fit/off_the_end.h"
#include "models/fit/tape.h"
#include "models/open/entry_models.h"
#include "models/open/messages.h"
#include "models/open/release_part.h"
#include "models/open/time_between.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

struct GrowthLayout {
  std::size_t occasions;
  GrowthForm form;
  std::vector<double> lengths;  // of the intervals; empty: one each
  LinearPart survival, capture, rate;

  // Over the whole interval, however long.
  template <class T>
  T interval_survival_eta(const std::vector<T>& theta, std::size_t u, std::size_t i) const {
    return over_time(survival.eta(theta, u, i), length_of(lengths, i));
  }
  template <class T>
  T interval_growth(const std::vector<T>& theta, std::size_t u, std::size_t i) const {
    using std::exp;
    using std::log;
    const double length = length_of(lengths, i);
    return length == 1 ? lambda(theta, u, i) : exp(length * log(lambda(theta, u, i)));
  }
  template <class T>
  T lambda(const std::vector<T>& theta, std::size_t u, std::size_t i) const {
    using std::exp;
    const T x = rate.eta(theta, u, i);
    if (form == GrowthForm::growth) return exp(x);
    const T s = logistic(survival.eta(theta, u, i));
    return form == GrowthForm::recruitment ? s + exp(x) : s / logistic(x);
  }
};

Quantity quantity_of(GrowthForm form) {
  return form == GrowthForm::growth        ? Quantity::growth_rate
         : form == GrowthForm::recruitment ? Quantity::recruitment
                                           : Quantity::seniority;
}

// A rate above nought: its predictor is on the log scale, whatever the terms.
Predictor rate_part(Quantity what, const Terms& terms, const CaptureHistories& histories, const Units& units,
                    std::size_t intervals, double start, Likelihood& likelihood) {
  const Link link = what == Quantity::seniority ? Link::logit : Link::log;
  Predictor rate({what}, terms, histories, units, 0, intervals, link == Link::logit ? start : 0.5,
                 likelihood);
  for (Index i = rate.first(); link == Link::log && i < rate.first() + rate.size(); ++i) {
    if (likelihood.links[static_cast<std::size_t>(i)] != Link::logit) continue;
    likelihood.links[static_cast<std::size_t>(i)] = Link::log;
    likelihood.start[i] = std::log(start);
    likelihood.lower[i] = -25;
    likelihood.upper[i] = 25;
    likelihood.low_end[i] = -15;
    likelihood.high_end[i] = 15;
  }
  return rate;
}

template <class T>
T log_likelihood_of(const MArray& array, const GrowthLayout& at, std::size_t u, const std::vector<T>& theta) {
  using std::log;
  const std::size_t k = at.occasions;
  const double seen = array.newly.sum();
  T number = T(1.0), psi = T(1.0), total = T(0.0), sum = T(0.0);
  std::vector<T> s, r;
  for (std::size_t i = 0; i < k; ++i) {
    const auto row = static_cast<Index>(i);
    const T eta = at.capture.eta(theta, u, i);
    const T first = psi * logistic(eta);
    total += first;
    const double newly = array.newly[row];
    if (newly > 0) sum += newly * log(first);  // not-a-number where growth is below survival: out of range
    if (i + 1 == k) break;
    // Animals lost on capture neither survive nor bring others in (Pradel 1996, with losses).
    const double lost_share = array.caught[row] > 0 ? 1 - array.released[row] / array.caught[row] : 0;
    const T remaining = number * (1.0 - lost_share * logistic(eta));
    const T survival = logistic(at.interval_survival_eta(theta, u, i)),
            next = remaining * at.interval_growth(theta, u, i);
    psi = psi * logistic(-eta) * survival + next - survival * remaining;
    number = next;
    if (!(value_of(psi) >= 0)) return T(kUndefined);  // more animals gone than were there: out of range
    s.push_back(at.interval_survival_eta(theta, u, i));
    r.push_back(at.capture.eta(theta, u, i + 1));
  }
  if (seen == 0) return sum;
  return sum - seen * log(total) + release_part(array, s, r);
}

std::vector<std::string> units_groups(const GrowthChoice& choice) {
  std::vector<std::string> names;
  for (const Terms* terms : {&choice.survival, &choice.capture, &choice.rate})
    for (const std::string& name : terms->groups)
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  return names;
}

std::vector<Index> slopes_of(const Likelihood& likelihood, const Predictor& part) {
  std::vector<Index> slopes;
  for (Index i = part.first(); i < part.first() + part.size(); ++i)
    if (likelihood.links[static_cast<std::size_t>(i)] == Link::identity) slopes.push_back(i);
  return slopes;
}

using OfRates = std::function<double(double survival, double lambda)>;

// What follows from survival and growth of an interval.
class Derived {
 public:
  Derived(const FittedModel& model, const GrowthLayout& at, const ModelOptions& options)
      : model_(model),
        at_(at),
        level_(options.level),
        off_the_end_(model.likelihood, options.profile ? model.fit : Fit{}, options.level) {}

  Estimate of(const Parameter& what, std::size_t u, std::size_t interval, const OfRates& of_rates) const {
    // A difference is nearly normal itself, and may come out below nought where sampling error makes growth less
    // than survival; ratios are on the log scale.
    const bool difference = what.quantity == Quantity::recruitment;
    const auto function = [&](const VectorXd& x) {
      const std::vector<double> theta = as_vector(x);
      return of_rates(logistic(at_.survival.eta(theta, u, interval)), at_.lambda(theta, u, interval));
    };
    const auto on_scale = [&](const VectorXd& x) { return difference ? function(x) : std::log(function(x)); };
    Estimate estimate = estimate_of(what);
    estimate.undefined = why_undefined(model_.fit, function);
    if (!estimate.undefined.empty()) {
      estimate.intervals = {{0, kInfinity, level_, messages::kIntervalNoInformation}};
      return estimate;
    }
    estimate.value = function(model_.fit.theta);
    double error = std::sqrt(delta_variance(model_.fit, on_scale));
    Interval limits = normal_interval(on_scale(model_.fit.theta), error, level_);
    if (!difference) limits.method = messages::kIntervalNormalOnLog;
    if (off_the_end_.changes(on_scale)) {
      limits = off_the_end_.limits(on_scale);
      error = (limits.upper - limits.lower) / 2 / normal_point(level_);
    }
    estimate.standard_error = difference ? error : estimate.value * error;
    if (!difference) limits = {std::exp(limits.lower), std::exp(limits.upper), level_, limits.method};
    estimate.intervals = {limits};
    return estimate;
  }

 private:
  const FittedModel& model_;
  const GrowthLayout& at_;
  double level_;
  OffTheEnd off_the_end_;
};

// Slopes of the rate, on its covariates' own units.
void add_slopes(FittedModel& model, const Predictor& rate, double level) {
  for (const Index i : slopes_of(model.likelihood, rate)) {
    Estimate slope = natural_estimate(model.likelihood, model.fit, i, level, false);
    slope.value /= rate.scale(i);
    slope.standard_error /= rate.scale(i);
    for (Interval& interval : slope.intervals) {
      interval.lower /= rate.scale(i);
      interval.upper /= rate.scale(i);
    }
    model.estimates.push_back(slope);
  }
}

bool any_lost(const std::vector<MArray>& arrays, std::size_t k) {
  return std::any_of(arrays.begin(), arrays.end(), [&](const MArray& array) {
    return array.next.rowwise().sum().sum() + array.never_again().sum() <
           array.caught.head(static_cast<Index>(k) - 1).sum();
  });
}

std::string words_of(const GrowthChoice& choice) {
  return Message(messages::kGrowthModel, {{"survival", choice.survival.words()},
                                          {"capture", choice.capture.words()},
                                          {"rate", words_of(quantity_of(choice.form))},
                                          {"terms", choice.rate.words()}})
      .words();
}

double start_of(GrowthForm form, double survival) {
  return form == GrowthForm::growth ? 1.0 : form == GrowthForm::recruitment ? 1 - survival : survival;
}

bool varies(const Terms& terms) {
  return terms.by_occasion() || !terms.occasion_covariates.empty();
}

FittedModel fit_rates(const std::vector<MArray>& arrays, const Units& units,
                      const CaptureHistories& histories, const GrowthChoice& choice,
                      const ModelOptions& options) {
  const std::size_t k = histories.occasion_count();
  FittedModel model;
  model.name = "growth";
  const Quantity what = quantity_of(choice.form);
  model.description = words_of(choice);
  Likelihood& likelihood = model.likelihood;
  const double start = start_per_unit(0.6, options.interval_lengths);
  const Predictor survival({Quantity::survival}, choice.survival, histories, units, 0, k - 1, start,
                           likelihood);
  const Predictor capture({Quantity::capture}, choice.capture, histories, units, 0, k, 0.5, likelihood);
  const Predictor rate =
      rate_part(what, choice.rate, histories, units, k - 1, start_of(choice.form, start), likelihood);
  const GrowthLayout at{
      k, choice.form, options.interval_lengths, LinearPart(survival), LinearPart(capture), LinearPart(rate)};
  likelihood.minus_log_likelihood = [=](const VectorXd& x, VectorXd* gradient) {
    return evaluate(
        [&](const auto& theta) {
          auto sum = log_likelihood_of(arrays[0], at, 0, theta);
          for (std::size_t u = 1; u < arrays.size(); ++u) sum += log_likelihood_of(arrays[u], at, u, theta);
          return -sum;
        },
        x, gradient);
  };
  model.fit = fit(likelihood, {options.seed, true, options.overdispersion});
  model.parameters = model.fit.rank;
  model.log_likelihood = model.fit.log_likelihood;
  for (const MArray& array : arrays) model.sample_size += array.caught.sum();

  const Derived derived(model, at, options);
  const bool constant = !varies(choice.survival) && !varies(choice.rate);
  const auto derive = [&](Quantity quantity, const OfRates& of_rates) {
    for (std::size_t u = 0; u < arrays.size(); ++u)
      for (std::size_t i = 0; i < (constant ? 1 : k - 1); ++i) {
        Parameter one{quantity};
        if (!constant) one.index = static_cast<int>(i) + 1;
        for (const std::string& name : units_groups(choice))
          one.groups.emplace_back(name, histories.groups.at(name)[units.first_animal[u]]);
        model.estimates.push_back(derived.of(one, u, i, of_rates));
      }
  };
  derive(Quantity::growth_rate, [](double, double lambda) { return lambda; });
  ModelOptions quick = options;
  quick.profile = false;
  add_chance_estimates(model, Quantity::survival, choice.survival, survival, histories, units, 0, quick);
  add_chance_estimates(model, Quantity::capture, choice.capture, capture, histories, units, 0, quick);
  add_slopes(model, rate, options.level);
  derive(Quantity::recruitment, [](double s, double lambda) { return lambda - s; });
  derive(Quantity::seniority, [](double s, double lambda) { return s / lambda; });
  Estimate& first = model.estimates.front();
  first.warnings = model.fit.warnings();
  first.source = "Pradel (1996), Biometrics 52:703-709";
  first.assumptions = {messages::kCaughtAlikeAsSaid, messages::kAreaStayed, messages::kSurvivedAlikeAndKnown};
  if (any_lost(arrays, k)) first.warnings.push_back(messages::kLossesUpsetGrowth);
  return model;
}

}  // namespace

FittedModel fit_growth(const MArray& array, const GrowthTerms& terms, const ModelOptions& options) {
  CaptureHistories labels;  // carries only the occasions
  for (int j = 0; j < array.occasions(); ++j) labels.occasions.push_back(std::to_string(j + 1));
  GrowthChoice choice;
  choice.form = terms.form;
  choice.survival.occasion = terms.survival_by_occasion;
  choice.capture.occasion = terms.capture_by_occasion;
  choice.rate.occasion = terms.growth_by_occasion;
  return fit_rates({array}, {{}, {0}}, labels, choice, options);
}

FittedModel fit_growth(const CaptureHistories& histories, const GrowthChoice& choice,
                       const ModelOptions& options) {
  histories.check();
  for (const Terms* terms : {&choice.survival, &choice.capture, &choice.rate})
    if (!terms->covariates.empty())
      throw InputError(messages::kItemGrowth,
                       {messages::kLinearInAnimals, {{"covariate", terms->covariates.front()}}},
                       messages::kGroupsOrUseSurvival);
  const Units units = make_units(histories, {choice.survival, choice.capture, choice.rate});
  return fit_rates(m_arrays(histories, units), units, histories, choice, options);
}

}  // namespace evet::models
