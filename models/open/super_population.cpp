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
using OfTheta = std::function<double(const VectorXd&)>;

constexpr double kCertain = 30;  // logit of a probability set to 1

// Where each kind of parameter starts in theta.
//
// What came in is told by the animals caught for the first time: of those up to an occasion, its share was
// first caught on it. The entry chances b_0 ... b_{k-1} follow, and one that is nought in truth may come out
// a little below it, as in the closed forms of Jolly and Seber. Held at nought instead, entries that are only
// ever estimated too high would pull the numbers down, and with a reference entry at nought all others lie at
// their ends.
struct Layout {
  std::size_t occasions, survival, capture, entry;
  EntryTerms terms;
  std::vector<double> lengths;               // of the intervals; empty: one each
  std::vector<std::size_t> with_newly = {};  // occasions on which any animal was caught for the first time

  // Without known ends, the first chance of capture cannot be told from the animals that came in just before
  // it, nor the last from the last survival: they are set to 1 and what rests on them is not given.
  bool first_untold() const { return terms.capture_by_occasion && !terms.ends_known; }
  bool last_untold() const { return first_untold() && terms.survival_by_occasion; }
  bool first_set() const { return terms.ends_known || first_untold(); }
  bool last_set() const { return terms.ends_known || last_untold(); }
  std::size_t free_captures() const {
    return terms.capture_by_occasion ? occasions - first_set() - last_set() : 1;
  }

  // Over the whole interval, however long.
  template <class T>
  T survival_eta(const std::vector<T>& theta, std::size_t i) const {
    return over_time(theta[survival + (terms.survival_by_occasion ? i : 0)], length_of(lengths, i));
  }
  template <class T>
  T capture_eta(const std::vector<T>& theta, std::size_t i) const {
    if ((i == 0 && first_set()) || (i + 1 == occasions && last_set())) return T(kCertain);
    return theta[capture + (terms.capture_by_occasion ? i - first_set() : 0)];
  }
  // Of all animals that were caught at all, those first caught on each occasion.
  template <class T>
  std::vector<T> first_captures(const std::vector<T>& theta) const {
    std::vector<T> first(occasions, T(0.0));
    T before = T(1.0);
    for (std::size_t n = with_newly.size(); n-- > 0;) {
      first[with_newly[n]] = n == 0 ? before : before * logistic(theta[entry + n - 1]);
      if (n > 0) before = before * logistic(-theta[entry + n - 1]);
    }
    return first;
  }
  // Animals that came in before each occasion, over all animals that were caught at all; their sum is that of
  // the animals that were ever there.
  template <class T>
  std::vector<T> came_in(const std::vector<T>& theta) const {
    const std::vector<T> first = first_captures(theta);
    std::vector<T> in;
    T left = T(0.0);  // not caught yet, of those that came in earlier
    for (std::size_t i = 0; i < occasions; ++i) {
      const T eta = capture_eta(theta, i);
      const T uncaught = first[i] / logistic(eta);
      in.push_back(uncaught - left);
      if (i + 1 < occasions) left = uncaught * logistic(-eta) * logistic(survival_eta(theta, i));
    }
    return in;
  }
  template <class T>
  T ever_over_caught(const std::vector<T>& theta) const {
    T sum = T(0.0);
    for (const T& one : came_in(theta)) sum += one;
    return sum;
  }
};

std::vector<double> as_vector(const VectorXd& x) {
  return {x.data(), x.data() + x.size()};
}

std::optional<int> number(bool many, std::size_t i) {
  return many ? std::optional<int>(static_cast<int>(i)) : std::nullopt;
}

void add_parameters(Likelihood& likelihood, Layout& at, const MArray& array) {
  const std::size_t k = at.occasions;
  at.survival = likelihood.parameters.size();
  for (std::size_t i = 0; i < (at.terms.survival_by_occasion ? k - 1 : 1); ++i)
    likelihood.add({Quantity::survival, number(at.terms.survival_by_occasion, i + 1)}, Link::logit,
                   start_per_unit(0.7, at.lengths));
  at.capture = likelihood.parameters.size();
  for (std::size_t i = 0; i < at.free_captures(); ++i)
    likelihood.add({Quantity::capture, number(at.terms.capture_by_occasion, i + at.first_set() + 1)},
                   Link::logit, 0.5);
  at.entry = likelihood.parameters.size();
  double by_now = 0;
  for (std::size_t i = 0; i < k; ++i) {
    const double newly = array.newly[static_cast<Index>(i)];
    if (newly == 0) continue;
    by_now += newly;
    if (!at.with_newly.empty())
      likelihood.add({Quantity::entry, static_cast<int>(i), {}, Parameter::Kind::inner}, Link::logit,
                     newly / by_now);
    at.with_newly.push_back(i);
  }
}

template <class T>
T log_likelihood_of(const MArray& array, const Layout& at, double seen, const std::vector<T>& theta) {
  using std::exp;
  using std::log;
  const std::vector<T> first = at.first_captures(theta);
  T sum = T(0.0);
  for (const std::size_t i : at.with_newly) sum += array.newly[static_cast<Index>(i)] * log(first[i]);
  if (!at.terms.conditional) {
    const T unseen = exp(theta[0]), ever = at.ever_over_caught(theta);
    if (!(value_of(ever) > 1)) return T(kUndefined);  // fewer animals than were caught: out of range
    sum += log_ways(seen, unseen) + unseen * log(1.0 - 1.0 / ever) - seen * log(ever);
  }
  std::vector<T> s, r;
  for (std::size_t i = 0; i + 1 < at.occasions; ++i) {
    s.push_back(at.survival_eta(theta, i));
    r.push_back(at.capture_eta(theta, i + 1));
  }
  return sum + release_part(array, s, r);
}

// The quantities that follow from a fit.
class Derived {
 public:
  Derived(const MArray& array, const Layout& at, const FittedModel& model, const ModelOptions& options)
      : array_(array), at_(at), model_(model), options_(options), seen_(array.newly.sum()) {}

  double chance_seen(const VectorXd& x) const { return 1 / at_.ever_over_caught(as_vector(x)); }
  double ever(const VectorXd& x) const {
    return at_.terms.conditional ? seen_ / chance_seen(x) : seen_ + std::exp(x[0]);
  }
  // Came in before an occasion, of all that were ever there.
  double share_in(const VectorXd& x, std::size_t i) const {
    return at_.came_in(as_vector(x))[i] * chance_seen(x);
  }
  // Just before an occasion; animals lost on capture do not go on.
  double present(const VectorXd& x, std::size_t occasion) const {
    const std::vector<double> theta = as_vector(x), b = at_.came_in(theta);
    const double all = ever(x) * chance_seen(x);
    double n = b[0] * all;
    for (std::size_t i = 0; i < occasion; ++i) {
      const auto row = static_cast<Index>(i);
      const double lost = array_.caught[row] - array_.released[row];
      n = std::max(0.0, n - lost) * logistic(at_.survival_eta(theta, i)) + b[i + 1] * all;
    }
    return n;
  }

  Estimate number_ever() const {
    const double star = chance_seen(model_.fit.theta);
    return count(
        {Quantity::number_ever}, [this](const VectorXd& x) { return ever(x); }, seen_,
        seen_ * (1 - star) / (star * star));
  }
  Estimate number(std::size_t occasion) const {
    // Of the animals that were there, not of a mean over surveys like this one: the spread of who happens to
    // be there is taken off, and in the conditional form that of the number seen put on. A constant survival
    // follows the deaths that happened only in part: half of their spread is taken off, between none and all.
    const VectorXd& x = model_.fit.theta;
    const double all = ever(x), share = present(x, occasion) / all, star = chance_seen(x);
    const double deaths = spread_of_deaths(x, occasion);
    double extra = deaths * (at_.terms.survival_by_occasion ? 0 : 0.5) - all * share * (1 - share);
    if (at_.terms.conditional) extra += all * share * share * (1 - star) / star;
    return count(
        {Quantity::number, static_cast<int>(occasion) + 1},
        [=, this](const VectorXd& y) { return present(y, occasion); },
        array_.caught[static_cast<Index>(occasion)], extra);
  }
  Estimate entry(std::size_t i) const {
    return came_in({Quantity::entry, static_cast<int>(i)},
                   [=, this](const VectorXd& x) { return share_in(x, i); });
  }
  Estimate births(std::size_t i) const {
    return came_in({Quantity::births, static_cast<int>(i)},
                   [=, this](const VectorXd& x) { return ever(x) * share_in(x, i); });
  }
  // A chance of survival or capture; one that was set has no estimate.
  Estimate chance(const Parameter& what) const {
    for (std::size_t i = 0; i < model_.likelihood.parameters.size(); ++i)
      if (model_.likelihood.parameters[i] == what && untold(what).empty())
        return natural_estimate(model_.likelihood, model_.fit, static_cast<Index>(i), options_.level,
                                options_.profile);
    Estimate estimate = estimate_of(what);
    estimate.undefined = untold(what);
    estimate.intervals = {{0, 1, options_.level, "no information"}};
    return estimate;
  }

 private:
  // Variance of the number present given how many came in before each occasion.
  double spread_of_deaths(const VectorXd& x, std::size_t occasion) const {
    const std::vector<double> theta = as_vector(x);
    double sum = 0, alive = 1;
    for (std::size_t i = occasion + 1; i-- > 0;) {
      sum += ever(x) * std::max(0.0, share_in(x, i)) * alive * (1 - alive);
      if (i > 0) alive *= logistic(at_.survival_eta(theta, i - 1));
    }
    return sum;
  }

  // Why the model cannot tell it, whatever the data.
  std::string untold(const Parameter& what) const {
    const int k = static_cast<int>(at_.occasions), i = what.index.value_or(0);
    const bool of_first = what.quantity == Quantity::number_ever || what.quantity == Quantity::entry ||
                          (what.quantity == Quantity::births && i == 1) ||
                          (what.quantity == Quantity::number && i == 1) ||
                          (what.quantity == Quantity::capture && i == 1);
    if (at_.first_untold() && of_first)
      return "with capture by occasion, the first chance of capture cannot be told, and so neither can this";
    const bool of_last = (what.quantity == Quantity::survival && i == k - 1) ||
                         (what.quantity == Quantity::births && i == k - 1) ||
                         (what.quantity == Quantity::number && i == k) ||
                         (what.quantity == Quantity::capture && i == k);
    if (at_.last_untold() && of_last)
      return "with survival and capture by occasion, the last of each cannot be told, and so neither can "
             "this";
    return {};
  }

  Estimate count(const Parameter& what, const OfTheta& function, double floor, double extra) const {
    Estimate estimate = estimate_of(what);
    estimate.undefined = untold(what);
    if (estimate.undefined.empty()) estimate.undefined = why_undefined(model_.fit, function);
    if (!estimate.undefined.empty()) {
      estimate.intervals = {{floor, kInfinity, options_.level, "no information"}};
      return estimate;
    }
    estimate.details["counted"] = floor;
    estimate.value = function(model_.fit.theta);
    estimate.standard_error = std::sqrt(std::max(0.0, delta_variance(model_.fit, function) + extra));
    // Close to what was counted, the log-normal limits close upon it.
    const bool close = estimate.value < 1.02 * floor;
    Interval interval =
        log_normal_interval(estimate.value, estimate.standard_error, close ? 0 : floor, options_.level);
    interval.lower = std::max(interval.lower, std::min(floor, estimate.value));
    estimate.intervals = {interval};
    return estimate;
  }

  // May come out below nought where little or nothing came in.
  Estimate came_in(const Parameter& what, const OfTheta& function) const {
    Estimate estimate = count(what, function, 0, 0);
    if (estimate.undefined.empty())
      estimate.intervals = {normal_interval(estimate.value, estimate.standard_error, options_.level)};
    return estimate;
  }

  const MArray& array_;
  const Layout& at_;
  const FittedModel& model_;
  const ModelOptions& options_;
  double seen_;
};

std::vector<std::string> assumptions_of(const Layout& at) {
  std::vector<std::string> list = {
      "Every animal present on an occasion, marked or not, had the same chance of capture, as far as the "
      "model does not say otherwise.",
      "Every animal present had the same chance of surviving to the next occasion, likewise.",
      "Leaving for good counts as death; no animal lost its identity."};
  if (at.terms.ends_known)
    list.push_back("Every animal present on the first and on the last occasion was caught there.");
  return list;
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
    likelihood.parameters[0] = {Quantity::number_ever};
  }
  add_parameters(likelihood, at, array);
  likelihood.minus_log_likelihood = [=](const VectorXd& x, VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood_of(array, at, seen, theta); }, x,
                    gradient);
  };
  model.fit = fit(likelihood, {options.seed, true, options.overdispersion});
  // An occasion without first captures has its share all the same: none.
  model.parameters = model.fit.rank + static_cast<int>(k - std::max<std::size_t>(1, at.with_newly.size()));
  model.log_likelihood = model.fit.log_likelihood;
  model.sample_size = array.caught.sum();

  const Derived derived(array, at, model, options);
  Estimate n = derived.number_ever();
  if (!terms.conditional && n.undefined.empty()) {
    n = population_estimate(model, 0, seen, options);
    n.what = {Quantity::number_ever};
    n.parameter = n.what.name();
  }
  n.warnings = model.fit.warnings();
  n.source = "Schwarz & Arnason (1996), Biometrics 52:860-873; Crosbie & Manly (1985), Biometrics 41:385-398";
  n.assumptions = assumptions_of(at);
  model.estimates = {n};
  for (std::size_t i = 0; i < (terms.survival_by_occasion ? k - 1 : 1); ++i)
    model.estimates.push_back(
        derived.chance({Quantity::survival, number(terms.survival_by_occasion, i + 1)}));
  for (std::size_t i = 0; i < (terms.capture_by_occasion ? k : 1); ++i) {
    if (terms.ends_known && terms.capture_by_occasion && (i == 0 || i + 1 == k)) continue;
    model.estimates.push_back(derived.chance({Quantity::capture, number(terms.capture_by_occasion, i + 1)}));
  }
  for (std::size_t i = 0; i < k; ++i) model.estimates.push_back(derived.entry(i));
  for (std::size_t i = 0; i < k; ++i) model.estimates.push_back(derived.number(i));
  for (std::size_t i = 1; i < k; ++i) model.estimates.push_back(derived.births(i));
  return model;
}

}  // namespace evet::models
