#include <algorithm>
#include <cmath>

#include "models/base/input_error.h"
#include "models/closed/population_size.h"
#include "models/open/entry_models.h"
#include "models/open/release_part.h"
#include "models/open/time_between.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr double kCertain = 30;  // logit of a probability set to 1

// Where each kind of parameter starts in theta.
struct Layout {
  std::size_t occasions, survival, capture, entry;
  EntryTerms terms;
  std::vector<double> lengths;  // of the intervals; empty: one each

  // Over the whole interval, however long.
  template <class T>
  T survival_eta(const std::vector<T>& theta, std::size_t i) const {
    return over_time(theta[survival + (terms.survival_by_occasion ? i : 0)], length_of(lengths, i));
  }
  template <class T>
  T capture_eta(const std::vector<T>& theta, std::size_t i) const {
    if (terms.ends_known && (i == 0 || i + 1 == occasions)) return T(kCertain);
    return theta[capture + (terms.capture_by_occasion ? i - (terms.ends_known ? 1 : 0) : 0)];
  }
  // Entry chances, the last one the reference of the multinomial logit.
  template <class T>
  std::vector<T> entries(const std::vector<T>& theta) const {
    using std::exp;
    std::vector<T> b;
    T sum = T(1.0);
    for (std::size_t i = 0; i + 1 < occasions; ++i) {
      b.push_back(exp(theta[entry + i]));
      sum += b.back();
    }
    b.push_back(T(1.0));
    for (T& one : b) one = one / sum;
    return b;
  }
  // Chances psi_i p_i of being there, not caught yet, and caught on i.
  template <class T>
  std::vector<T> first_captures(const std::vector<T>& theta) const {
    const std::vector<T> b = entries(theta);
    std::vector<T> first;
    T psi = b[0];
    for (std::size_t i = 0; i < occasions; ++i) {
      const T eta = capture_eta(theta, i);
      first.push_back(psi * logistic(eta));
      if (i + 1 < occasions) psi = psi * logistic(-eta) * logistic(survival_eta(theta, i)) + b[i + 1];
    }
    return first;
  }
};

std::vector<double> as_vector(const VectorXd& x) {
  return {x.data(), x.data() + x.size()};
}

}  // namespace

FittedModel fit_super_population(const MArray& array, const EntryTerms& terms, const ModelOptions& options) {
  const std::size_t k = static_cast<std::size_t>(array.occasions());
  if (terms.ends_known && k < 3)
    throw InputError("super-population", "there are two occasions",
                     "give at least three to set the ends to 1");
  FittedModel model;
  model.name = "super-population";
  const auto words = [](bool by_occasion) { return std::string(by_occasion ? "by occasion" : "constant"); };
  model.description = "survival " + words(terms.survival_by_occasion) + ", capture " +
                      words(terms.capture_by_occasion) + ", entry by occasion";
  Likelihood& likelihood = model.likelihood;
  const double seen = array.newly.sum();
  Layout at{k, 0, 0, 0, terms, options.interval_lengths};
  if (!terms.conditional) {
    add_population_size(likelihood, seen, 0.3 * seen);
    likelihood.names[0] = "N ever";
  }
  at.survival = likelihood.names.size();
  for (std::size_t i = 0; i < (terms.survival_by_occasion ? k - 1 : 1); ++i)
    likelihood.add(terms.survival_by_occasion ? "survival " + std::to_string(i + 1) : "survival", Link::logit,
                   start_per_unit(0.7, at.lengths));
  at.capture = likelihood.names.size();
  for (std::size_t i = terms.ends_known ? 1 : 0;
       i < (terms.capture_by_occasion ? k - (terms.ends_known ? 1 : 0) : (terms.ends_known ? 2 : 1)); ++i)
    likelihood.add(terms.capture_by_occasion ? "capture " + std::to_string(i + 1) : "capture", Link::logit,
                   0.5);
  at.entry = likelihood.names.size();
  for (std::size_t i = 0; i + 1 < k; ++i) {
    const Index e = likelihood.add("entry " + std::to_string(i), Link::identity,
                                   std::log((array.newly[static_cast<Index>(i)] + 0.5) /
                                            (array.newly[static_cast<Index>(k) - 1] + 0.5)));
    likelihood.lower[e] = -20;
    likelihood.upper[e] = 20;
    likelihood.low_end[e] = -10;
    likelihood.high_end[e] = 10;
  }
  const auto log_likelihood = [array, at, seen, k](const auto& theta) {
    using std::exp;
    using std::log;
    using T = std::decay_t<decltype(theta[0])>;
    const std::vector<T> first = at.first_captures(theta);
    T caught = T(0.0), sum = T(0.0);
    for (std::size_t i = 0; i < k; ++i) {
      caught += first[i];
      const double newly = array.newly[static_cast<Index>(i)];
      if (newly > 0) sum += newly * log(first[i]);
    }
    if (at.terms.conditional) {
      sum -= seen * log(caught);
    } else {
      const T unseen = exp(theta[0]);
      sum += log_ways(seen, unseen) + unseen * log(1.0 - caught + 1e-300);
    }
    std::vector<T> s, r;
    for (std::size_t i = 0; i + 1 < k; ++i) {
      s.push_back(at.survival_eta(theta, i));
      r.push_back(at.capture_eta(theta, i + 1));
    }
    return sum + release_part(array, s, r);
  };
  likelihood.minus_log_likelihood = [=](const VectorXd& x, VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood(theta); }, x, gradient);
  };
  model.fit = fit(likelihood, {options.seed, true, options.overdispersion});
  model.parameters = model.fit.rank;
  model.log_likelihood = model.fit.log_likelihood;
  model.sample_size = array.caught.sum();

  const auto ever = [=](const VectorXd& x) {
    if (!at.terms.conditional) return seen + std::exp(x[0]);
    double caught = 0;
    for (const double one : at.first_captures(as_vector(x))) caught += one;
    return seen / caught;
  };
  const auto present = [=](const VectorXd& x, std::size_t occasion) {
    const std::vector<double> theta = as_vector(x), b = at.entries(theta);
    double n = b[0];
    for (std::size_t i = 0; i < occasion; ++i) n = n * logistic(at.survival_eta(theta, i)) + b[i + 1];
    return n * ever(x);
  };
  const auto derived = [&](const std::string& name, const std::function<double(const VectorXd&)>& function,
                           double floor, double extra) {
    Estimate estimate;
    estimate.parameter = name;
    estimate.undefined = why_undefined(model.fit, function);
    if (!estimate.undefined.empty()) {
      estimate.intervals = {{floor, kInfinity, options.level, "no information"}};
      return estimate;
    }
    estimate.value = function(model.fit.theta);
    estimate.standard_error = std::sqrt(delta_variance(model.fit, function) + extra);
    estimate.intervals = {log_normal_interval(estimate.value, estimate.standard_error, floor, options.level)};
    return estimate;
  };
  Estimate n;
  if (terms.conditional) {
    const double star = seen / ever(model.fit.theta);
    n = derived("N ever", ever, seen, seen * (1 - star) / (star * star));
  } else {
    n = population_estimate(model, 0, seen, options);
    n.parameter = "N ever";
  }
  n.warnings = model.fit.warnings();
  n.source = "Schwarz & Arnason (1996), Biometrics 52:860-873; Crosbie & Manly (1985), Biometrics 41:385-398";
  n.assumptions = {
      "Every animal present on an occasion, marked or not, had the same chance of capture, as far as the "
      "model does not say otherwise.",
      "Every animal present had the same chance of surviving to the next occasion, likewise.",
      "Leaving for good counts as death; no animal lost its identity."};
  model.estimates = {n};
  for (std::size_t i = at.survival; i < at.entry; ++i)
    model.estimates.push_back(
        natural_estimate(likelihood, model.fit, static_cast<Index>(i), options.level, false));
  for (std::size_t i = 0; i < k; ++i)
    model.estimates.push_back(derived(
        "entry " + std::to_string(i), [=](const VectorXd& x) { return at.entries(as_vector(x))[i]; }, 0, 0));
  for (std::size_t i = 0; i < k; ++i)
    model.estimates.push_back(derived(
        "N " + std::to_string(i + 1), [=](const VectorXd& x) { return present(x, i); }, 0, 0));
  for (std::size_t i = 1; i < k; ++i)
    model.estimates.push_back(derived(
        "births " + std::to_string(i),
        [=](const VectorXd& x) { return ever(x) * at.entries(as_vector(x))[i]; }, 0, 0));
  return model;
}

}  // namespace evet::models
