#include <algorithm>
#include <cmath>

#include "models/open/entry_models.h"
#include "models/open/release_part.h"
#include "models/open/time_between.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

struct Layout {
  std::size_t occasions, capture, growth;
  GrowthTerms terms;
  std::vector<double> lengths;  // of the intervals; empty: one each

  template <class T>
  T survival_eta(const std::vector<T>& theta, std::size_t i) const {
    return theta[terms.survival_by_occasion ? i : 0];
  }
  // Over the whole interval, however long.
  template <class T>
  T interval_survival_eta(const std::vector<T>& theta, std::size_t i) const {
    return over_time(survival_eta(theta, i), length_of(lengths, i));
  }
  template <class T>
  T interval_growth(const std::vector<T>& theta, std::size_t i) const {
    using std::exp;
    using std::log;
    const double length = length_of(lengths, i);
    return length == 1 ? lambda(theta, i) : exp(length * log(lambda(theta, i)));
  }
  template <class T>
  T capture_eta(const std::vector<T>& theta, std::size_t i) const {
    return theta[capture + (terms.capture_by_occasion ? i : 0)];
  }
  template <class T>
  T lambda(const std::vector<T>& theta, std::size_t i) const {
    using std::exp;
    const T& x = theta[growth + (terms.growth_by_occasion ? i : 0)];
    if (terms.form == GrowthForm::growth) return exp(x);
    const T survival = logistic(survival_eta(theta, i));
    return terms.form == GrowthForm::recruitment ? survival + exp(x) : survival / logistic(x);
  }
};

std::vector<double> as_vector(const VectorXd& x) {
  return {x.data(), x.data() + x.size()};
}

}  // namespace

FittedModel fit_growth(const MArray& array, const GrowthTerms& terms, const ModelOptions& options) {
  const std::size_t k = static_cast<std::size_t>(array.occasions());
  FittedModel model;
  model.name = "growth";
  const auto words = [](bool by_occasion) { return std::string(by_occasion ? "by occasion" : "constant"); };
  const Quantity what = terms.form == GrowthForm::growth        ? Quantity::growth_rate
                        : terms.form == GrowthForm::recruitment ? Quantity::recruitment
                                                                : Quantity::seniority;
  model.description = "survival " + words(terms.survival_by_occasion) + ", capture " +
                      words(terms.capture_by_occasion) + ", " + word_of(what) + " " +
                      words(terms.growth_by_occasion);
  Likelihood& likelihood = model.likelihood;
  const auto of_interval = [](Quantity quantity, bool by_occasion, std::size_t i) -> Parameter {
    if (!by_occasion) return {quantity};
    return {quantity, static_cast<int>(i) + 1};
  };
  const auto add = [&](Quantity quantity, bool by_occasion, std::size_t count, Link link, double start) {
    for (std::size_t i = 0; i < (by_occasion ? count : 1); ++i)
      likelihood.add(of_interval(quantity, by_occasion, i), link, start);
  };
  add(Quantity::survival, terms.survival_by_occasion, k - 1, Link::logit,
      start_per_unit(0.6, options.interval_lengths));
  Layout at{k, likelihood.parameters.size(), 0, terms, options.interval_lengths};
  add(Quantity::capture, terms.capture_by_occasion, k, Link::logit, 0.5);
  at.growth = likelihood.parameters.size();
  if (terms.form == GrowthForm::seniority)
    add(what, terms.growth_by_occasion, k - 1, Link::logit, start_per_unit(0.6, at.lengths));
  else
    add(what, terms.growth_by_occasion, k - 1, Link::log,
        terms.form == GrowthForm::growth ? 1.0 : 1 - start_per_unit(0.6, at.lengths));
  const double seen = array.newly.sum();
  std::vector<double> lost_share(k, 0.0);  // of the animals caught on an occasion
  for (std::size_t i = 0; i + 1 < k; ++i) {
    const auto row = static_cast<Index>(i);
    if (array.caught[row] > 0) lost_share[i] = 1 - array.released[row] / array.caught[row];
  }
  const auto log_likelihood = [array, at, seen, k, lost_share](const auto& theta) {
    using std::log;
    using T = std::decay_t<decltype(theta[0])>;
    T number = T(1.0), psi = T(1.0), total = T(0.0), sum = T(0.0);
    std::vector<T> s, r;
    for (std::size_t i = 0; i < k; ++i) {
      const T eta = at.capture_eta(theta, i);
      const T first = psi * logistic(eta);
      total += first;
      const double newly = array.newly[static_cast<Index>(i)];
      if (newly > 0) sum += newly * log(first);  // not-a-number where growth is below survival: out of range
      if (i + 1 == k) break;
      // Animals lost on capture neither survive nor bring others in (Pradel 1996, with losses).
      const T remaining = number * (1.0 - lost_share[i] * logistic(eta));
      const T survival = logistic(at.interval_survival_eta(theta, i)),
              next = remaining * at.interval_growth(theta, i);
      psi = psi * logistic(-eta) * survival + next - survival * remaining;
      number = next;
      if (!(value_of(psi) >= 0)) return T(kUndefined);  // more animals gone than were there: out of range
      s.push_back(at.interval_survival_eta(theta, i));
      r.push_back(at.capture_eta(theta, i + 1));
    }
    return sum - seen * log(total) + release_part(array, s, r);
  };
  likelihood.minus_log_likelihood = [=](const VectorXd& x, VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood(theta); }, x, gradient);
  };
  model.fit = fit(likelihood, {options.seed, true, options.overdispersion});
  model.parameters = model.fit.rank;
  model.log_likelihood = model.fit.log_likelihood;
  model.sample_size = array.caught.sum();

  const bool constant = !terms.survival_by_occasion && !terms.growth_by_occasion;
  const auto derived = [&](Quantity quantity, std::size_t i,
                           const std::function<double(double, double)>& of_survival_and_lambda) {
    const auto function = [=](const VectorXd& x) {
      const std::vector<double> theta = as_vector(x);
      return of_survival_and_lambda(logistic(at.survival_eta(theta, i)), at.lambda(theta, i));
    };
    Estimate estimate = estimate_of(of_interval(quantity, !constant, i));
    estimate.undefined = why_undefined(model.fit, function);
    if (!estimate.undefined.empty()) {
      estimate.intervals = {{0, kInfinity, options.level, "no information"}};
      return estimate;
    }
    estimate.value = function(model.fit.theta);
    estimate.standard_error = std::sqrt(delta_variance(model.fit, function));
    const double half =
        normal_point(options.level) * estimate.standard_error / std::max(1e-300, std::abs(estimate.value));
    // Recruitment may come out below nought where sampling error makes growth less than survival.
    estimate.intervals = {normal_interval(estimate.value, estimate.standard_error, options.level)};
    if (estimate.value > 0)
      estimate.intervals = {{estimate.value * std::exp(-half), estimate.value * std::exp(half), options.level,
                             "normal on the log scale"}};
    return estimate;
  };
  for (std::size_t i = 0; i < (constant ? 1 : k - 1); ++i)
    model.estimates.push_back(
        derived(Quantity::growth_rate, i, [](double, double lambda) { return lambda; }));
  for (std::size_t i = 0; i < at.growth; ++i)
    model.estimates.push_back(
        natural_estimate(likelihood, model.fit, static_cast<Index>(i), options.level, false));
  for (std::size_t i = 0; i < (constant ? 1 : k - 1); ++i) {
    model.estimates.push_back(
        derived(Quantity::recruitment, i, [](double survival, double lambda) { return lambda - survival; }));
    model.estimates.push_back(
        derived(Quantity::seniority, i, [](double survival, double lambda) { return survival / lambda; }));
  }
  Estimate& first = model.estimates.front();
  first.warnings = model.fit.warnings();
  first.source = "Pradel (1996), Biometrics 52:703-709";
  first.assumptions = {
      "Every animal present on an occasion, marked or not, had the same chance of capture, as far as the "
      "model does not say otherwise.",
      "The area sampled stayed the same, so that growth is growth of the population and not of the effort.",
      "Every animal present had the same chance of surviving to the next occasion; no animal lost its "
      "identity."};
  if (array.next.rowwise().sum().sum() + array.never_again().sum() <
      array.caught.head(static_cast<Index>(k) - 1).sum())
    first.warnings.push_back(
        "Animals were lost on capture: growth here is from those left after an occasion to those there at "
        "the "
        "next.");
  return model;
}

}  // namespace evet::models
