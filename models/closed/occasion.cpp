// Mt: the capture probability differs between occasions, not between animals.
#include <algorithm>
#include <cmath>

#include "models/closed/full_likelihood.h"
#include "models/closed/messages.h"
#include "models/closed/population_size.h"

namespace evet::models {

double large_sample_se(double n, const std::vector<double>& p) {
  double none = 1, sum = 0;
  for (const double one : p) {
    none *= 1 - one;
    sum += 1 / (1 - one);
  }
  return std::sqrt(n / (1 / none + static_cast<double>(p.size()) - 1 - sum));
}

FittedModel fit_occasion(const ClosedCounts& counts, const ModelOptions& options) {
  FittedModel model;
  model.name = "occasion";
  model.description = Message(messages::kModelOccasion).words();
  const double seen = counts.seen;
  const std::size_t t = counts.caught.size();
  const double guess = guess_unseen(counts);
  add_population_size(model.likelihood, seen, guess);
  for (std::size_t j = 0; j < t; ++j)
    model.likelihood.add(chance_of_capture(static_cast<int>(j) + 1), Link::logit,
                         (counts.caught[j] + 0.1) / (seen + guess + 0.2));
  const auto log_likelihood = [counts, seen, t](const auto& theta) {
    using std::exp;
    const auto unseen = exp(theta[0]);
    auto sum = log_ways(seen, unseen);
    for (std::size_t j = 0; j < t; ++j)
      sum += counts.caught[j] * log_logistic(theta[j + 1]) +
             (unseen + (seen - counts.lost_before[j] - counts.caught[j])) * log_logistic(-theta[j + 1]);
    return sum;
  };
  model.likelihood.minus_log_likelihood = [=](const Eigen::VectorXd& x, Eigen::VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood(theta); }, x, gradient);
  };
  finish_closed(model, counts, options);

  const auto textbook = [&](double n, const auto& p_of) {
    std::vector<double> p;
    for (std::size_t j = 0; j < t; ++j) p.push_back(p_of(j));
    return large_sample_se(n, p);
  };
  const double lost = counts.lost_before.back();
  const double real = seen + std::exp(model.fit.theta[0]);
  const double se = textbook(
      real, [&](std::size_t j) { return logistic(model.fit.theta[static_cast<Eigen::Index>(j) + 1]); });
  Estimate n = population_estimate(model, 0, seen, options, lost == 0 && std::isfinite(se) ? se : -1);
  if (n.standard_error > 0) {
    const auto profile = [&](double whole) {
      double sum = log_ways(seen, whole - seen);
      for (std::size_t j = 0; j < t; ++j) {
        const double trials = whole - counts.lost_before[j], caught = counts.caught[j];
        if (caught > 0) sum += caught * std::log(caught / trials);
        if (trials > caught) sum += (trials - caught) * std::log1p(-caught / trials);
      }
      return sum;
    };
    const double whole = best_whole(seen, real, profile);
    n.details["N_whole"] = whole;
    n.details["se_at_whole"] =
        textbook(whole, [&](std::size_t j) { return counts.caught[j] / (whole - counts.lost_before[j]); });
  }
  model.estimates = {n};
  for (std::size_t j = 0; j < t; ++j)
    model.estimates.push_back(natural_estimate(model.likelihood, model.fit, static_cast<Eigen::Index>(j) + 1,
                                               options.level, options.profile));
  model.estimates[0].assumptions = {messages::kOneChanceAnOccasion};
  model.estimates[0].source =
      "Otis et al. (1978), Wildl. Monogr. 62, model Mt; Darroch (1958), Biometrika 45:343-359";
  return model;
}

}  // namespace evet::models
