// M0: one capture probability for every animal on every occasion.
#include <cmath>

#include "models/closed/full_likelihood.h"
#include "models/closed/messages.h"
#include "models/closed/population_size.h"

namespace evet::models {

FittedModel fit_constant(const ClosedCounts& counts, const ModelOptions& options) {
  FittedModel model;
  model.name = "constant";
  model.description = Message(messages::kModelConstant).words();
  const double seen = counts.seen, captures = counts.captures(), t = counts.occasions;
  double lost = 0;  // occasions missed by animals lost on capture
  for (const double before : counts.lost_before) lost += before;
  const double guess = guess_unseen(counts);
  add_population_size(model.likelihood, seen, guess);
  model.likelihood.add(chance_of_capture(), Link::logit, captures / (t * (seen + guess)));
  const auto log_likelihood = [=](const auto& theta) {
    using std::exp;
    const auto unseen = exp(theta[0]);
    return log_ways(seen, unseen) + captures * log_logistic(theta[1]) +
           (t * (seen + unseen) - lost - captures) * log_logistic(-theta[1]);
  };
  model.likelihood.minus_log_likelihood = [=](const Eigen::VectorXd& x, Eigen::VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood(theta); }, x, gradient);
  };
  finish_closed(model, counts, options);

  const auto textbook = [&](double n, double p) {
    return large_sample_se(n, std::vector<double>(static_cast<std::size_t>(counts.occasions), p));
  };
  const double p = logistic(model.fit.theta[1]);
  const double real = seen + std::exp(model.fit.theta[0]);
  const double se = textbook(real, p);
  Estimate n = population_estimate(model, 0, seen, options, lost == 0 && std::isfinite(se) ? se : -1);
  if (n.standard_error > 0) {
    const auto profile = [&](double whole) {
      const double trials = t * whole - lost, rate = captures / trials;
      return log_ways(seen, whole - seen) + captures * std::log(rate) +
             (trials > captures ? (trials - captures) * std::log1p(-rate) : 0);
    };
    const double whole = best_whole(seen, real, profile);
    n.details["N_whole"] = whole;
    n.details["se_at_whole"] = textbook(whole, captures / (t * whole - lost));
  }
  model.estimates = {n, natural_estimate(model.likelihood, model.fit, 1, options.level, options.profile)};
  model.estimates[0].assumptions = {messages::kOneChanceForAll};
  model.estimates[0].source =
      "Otis et al. (1978), Wildl. Monogr. 62, model M0; Darroch (1958), Biometrika 45:343-359";
  return model;
}

}  // namespace evet::models
