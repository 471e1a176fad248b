// Mh with catchability spread as a beta distribution.
#include <cmath>

#include "models/closed/full_likelihood.h"
#include "models/closed/messages.h"
#include "models/closed/population_size.h"

namespace evet::models {

namespace {

// `theta`: logarithm of the animals not seen, logit of the mean chance, logarithm of a + b.
template <class Theta>
auto log_likelihood(const ClosedCounts& counts, const Theta& theta) {
  using std::exp;
  using std::log;
  const auto unseen = exp(theta[0]);
  const auto a = exp(theta[2] + log_logistic(theta[1])), b = exp(theta[2] + log_logistic(-theta[1])),
             s = exp(theta[2]);
  // Logarithms of rising products a (a + 1) ... over the occasions.
  auto zero = 0 * s;
  std::vector<decltype(zero)> rise_a = {zero}, rise_b = {zero}, rise_s = {zero};
  for (int i = 0; i < counts.occasions; ++i) {
    rise_a.push_back(rise_a.back() + log(a + i));
    rise_b.push_back(rise_b.back() + log(b + i));
    rise_s.push_back(rise_s.back() + log(s + i));
  }
  const auto one = [&](int captures, int exposed) {
    const auto k = static_cast<std::size_t>(captures), e = static_cast<std::size_t>(exposed);
    return rise_a[k] + rise_b[e - k] - rise_s[e];
  };
  auto sum = log_ways(counts.seen, unseen) + unseen * one(0, counts.occasions);
  for (const ClosedCounts::Class& c : counts.classes) sum += c.animals * one(c.captures, c.exposed);
  return sum;
}

// Ways in which the captures of an animal can fall on its occasions: no part of the fit.
double constant_of_ways(const ClosedCounts& counts) {
  double constant = 0;
  for (const ClosedCounts::Class& c : counts.classes)
    constant += c.animals * (std::lgamma(c.exposed + 1) - std::lgamma(c.captures + 1) -
                             std::lgamma(c.exposed - c.captures + 1));
  return constant;
}

}  // namespace

FittedModel fit_beta_binomial(const ClosedCounts& counts, const ModelOptions& options) {
  FittedModel model;
  model.name = "beta-binomial";
  model.description = Message(messages::kModelHeterogeneous).words();
  const double guess = guess_unseen(counts);
  add_population_size(model.likelihood, counts.seen, guess);
  model.likelihood.add(inner(messages::kMeanChance), Link::logit,
                       counts.captures() / (counts.occasions * (counts.seen + guess)));
  const Eigen::Index evenness = model.likelihood.add(inner(messages::kEvenness), Link::log, 8);
  model.likelihood.lower[evenness] = -10;
  model.likelihood.low_end[evenness] = -7;
  model.likelihood.upper[evenness] = 16;
  model.likelihood.high_end[evenness] = 11;  // as good as equal catchability
  for (const double log_evenness : {0.0, 4.0}) {
    Eigen::VectorXd start = model.likelihood.start;
    start[evenness] = log_evenness;
    model.likelihood.further_starts.push_back(start);
  }
  model.likelihood.minus_log_likelihood = [=](const Eigen::VectorXd& x, Eigen::VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood(counts, theta); }, x, gradient);
  };
  finish_closed(model, counts, options);
  model.estimates = {population_estimate(model, 0, counts.seen, options)};
  for (Eigen::Index i = 1; i < 3; ++i)
    model.estimates.push_back(
        natural_estimate(model.likelihood, model.fit, i, options.level, options.profile));
  Estimate& n = model.estimates.front();
  n.assumptions = {messages::kOwnChance, messages::kChancesAsBeta};
  n.source =
      "Dorazio & Royle (2003), Biometrics 59:351-364; Burnham (1972), PhD thesis, Oregon State University";
  n.warnings.push_back(messages::kNumbersCanDiffer);
  n.details["log_likelihood_of_frequencies"] = model.log_likelihood + constant_of_ways(counts);
  return model;
}

}  // namespace evet::models
