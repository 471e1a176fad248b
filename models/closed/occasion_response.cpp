// Mtb: a chance of first capture for each occasion, shifted by the same amount on the
// logit scale once caught.
#include <algorithm>
#include <cmath>

#include "models/closed/full_likelihood.h"
#include "models/closed/messages.h"
#include "models/closed/population_size.h"
#include "models/fit/logit_shift.h"

namespace evet::models {

FittedModel fit_occasion_response(const ClosedCounts& counts, const ModelOptions& options) {
  FittedModel model;
  model.name = "occasion-response";
  model.description = Message(messages::kModelOccasionResponse).words();
  const double seen = counts.seen;
  const std::size_t t = counts.caught.size();
  struct Cell {
    double newly, again, marked, at_large;
  };
  std::vector<Cell> cells;
  for (std::size_t j = 0; j < t; ++j)
    cells.push_back({counts.newly[j], counts.caught[j] - counts.newly[j], counts.marked_before(j),
                     counts.marked_before(j) - counts.lost_before[j]});
  const double guess = guess_unseen(counts);
  add_population_size(model.likelihood, seen, guess);
  for (std::size_t j = 0; j < t; ++j)
    model.likelihood.add(chance_of_capture(static_cast<int>(j) + 1), Link::logit,
                         (counts.caught[j] + 0.1) / (seen + guess + 0.2));
  const Eigen::Index shift = add_logit_shift(model.likelihood, inner(messages::kResponseShift));
  const auto log_likelihood = [cells, seen, t](const auto& theta) {
    using std::exp;
    const auto unseen = exp(theta[0]);
    auto sum = log_ways(seen, unseen);
    for (std::size_t j = 0; j < t; ++j) {
      const auto again = theta[j + 1] + theta[t + 1];
      sum += cells[j].newly * log_logistic(theta[j + 1]) +
             (unseen + (seen - cells[j].marked - cells[j].newly)) * log_logistic(-theta[j + 1]);
      if (cells[j].at_large > 0)
        sum += cells[j].again * log_logistic(again) +
               (cells[j].at_large - cells[j].again) * log_logistic(-again);
    }
    return sum;
  };
  model.likelihood.minus_log_likelihood = [=](const Eigen::VectorXd& x, Eigen::VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood(theta); }, x, gradient);
  };
  for (const double response : {-1.0, 1.0}) {
    Eigen::VectorXd start = model.likelihood.start;
    start[shift] = response;
    model.likelihood.further_starts.push_back(start);
  }
  finish_closed(model, counts, options);
  model.estimates = {population_estimate(model, 0, seen, options)};
  for (Eigen::Index i = 1; i <= shift; ++i)
    model.estimates.push_back(
        natural_estimate(model.likelihood, model.fit, i, options.level, options.profile));
  model.estimates[0].assumptions = {messages::kOneChanceForNew, messages::kShiftedAlike};
  model.estimates[0].source =
      "Otis et al. (1978), Wildl. Monogr. 62, model Mtb; logit shift: Huggins (1989), Biometrika 76:133-140";
  return model;
}

}  // namespace evet::models
