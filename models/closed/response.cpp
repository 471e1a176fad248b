// Mb and removal: animals answer to their first capture. Only first captures tell of N.
#include <algorithm>
#include <cmath>
#include <numeric>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/full_likelihood.h"
#include "models/closed/messages.h"
#include "models/closed/population_size.h"

namespace evet::models {
namespace {

// Sums of the first captures: `passes` x N occasions before or at first capture, less those spared.
struct FirstCaptures {
  double caught = 0, spared = 0, passes = 0;
};

FirstCaptures sums_of(const std::vector<double>& newly) {
  FirstCaptures sums;
  sums.passes = static_cast<double>(newly.size());
  for (std::size_t j = 0; j < newly.size(); ++j) {
    sums.caught += newly[j];
    sums.spared += newly[j] * static_cast<double>(newly.size() - 1 - j);
  }
  return sums;
}

template <class T>
T first_capture_part(const FirstCaptures& sums, const T& log_unseen, const T& logit_p) {
  using std::exp;
  const T unseen = exp(log_unseen);
  return log_ways(sums.caught, unseen) + sums.caught * log_logistic(logit_p) +
         (sums.passes * (sums.caught + unseen) - sums.spared - sums.caught) * log_logistic(-logit_p);
}

Estimate number_of(FittedModel& model, const FirstCaptures& sums, const ModelOptions& options) {
  const double p = logistic(model.fit.theta[1]);
  const double real = sums.caught + std::exp(model.fit.theta[0]);
  const double se = large_sample_se_response(real, p, sums.passes);
  Estimate n = population_estimate(model, 0, sums.caught, options, std::isfinite(se) ? se : -1);
  if (n.standard_error > 0) {
    const auto rate = [&](double whole) { return sums.caught / (sums.passes * whole - sums.spared); };
    const auto profile = [&](double whole) {
      const double trials = sums.passes * whole - sums.spared;
      return log_ways(sums.caught, whole - sums.caught) + sums.caught * std::log(rate(whole)) +
             (trials > sums.caught ? (trials - sums.caught) * std::log1p(-rate(whole)) : 0);
    };
    const double whole = best_whole(sums.caught, real, profile);
    n.details["N_whole"] = whole;
    n.details["se_at_whole"] = large_sample_se_response(whole, rate(whole), sums.passes);
  }
  return n;
}

// Where the likelihood has its summit at infinity the search is not asked: the criterion decides.
void send_to_infinity(Likelihood& likelihood) {
  likelihood.start[0] = likelihood.upper[0];
  likelihood.start[1] = likelihood.lower[1] / 2;
}

}  // namespace

double large_sample_se_response(double n, double p, double t) {
  const double qt = std::pow(1 - p, t);
  return std::sqrt(n * qt * (1 - qt) / ((1 - qt) * (1 - qt) - t * t * p * p * qt / (1 - p)));
}

double removal_criterion(const std::vector<double>& newly) {
  double sum = 0;
  for (std::size_t j = 0; j < newly.size(); ++j)
    sum += (static_cast<double>(newly.size()) - 1 - 2 * static_cast<double>(j)) * newly[j];
  return sum;
}

FittedModel fit_response(const ClosedCounts& counts, const ModelOptions& options) {
  FittedModel model;
  model.name = "response";
  model.description = Message(messages::kModelResponse).words();
  const FirstCaptures sums = sums_of(counts.newly);
  double again = 0, chances = 0;
  for (std::size_t j = 0; j < counts.newly.size(); ++j) {
    again += counts.caught[j] - counts.newly[j];
    chances += counts.marked_before(j) - counts.lost_before[j];
  }
  const double guess = guess_unseen(counts);
  add_population_size(model.likelihood, sums.caught, guess);
  model.likelihood.add(chance_of_capture(), Link::logit,
                       sums.caught / (sums.passes * (sums.caught + guess) - sums.spared));
  model.likelihood.add(chance_again(), Link::logit, (again + 0.1) / (chances + 0.2));
  if (removal_criterion(counts.newly) <= 0) send_to_infinity(model.likelihood);
  const auto log_likelihood = [=](const auto& theta) {
    return first_capture_part(sums, theta[0], theta[1]) + again * log_logistic(theta[2]) +
           (chances - again) * log_logistic(-theta[2]);
  };
  model.likelihood.minus_log_likelihood = [=](const Eigen::VectorXd& x, Eigen::VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood(theta); }, x, gradient);
  };
  finish_closed(model, counts, options);
  Estimate n = number_of(model, sums, options);
  n.details["existence_criterion"] = removal_criterion(counts.newly);
  n.assumptions = {messages::kNewCaughtAlike, messages::kKnownCaughtAlike};
  n.source = "Otis et al. (1978), Wildl. Monogr. 62, model Mb; Zippin (1956), Biometrics 12:163-189";
  model.estimates = {n, natural_estimate(model.likelihood, model.fit, 1, options.level, options.profile),
                     natural_estimate(model.likelihood, model.fit, 2, options.level, options.profile)};
  return model;
}

FittedModel fit_removal(const std::vector<double>& catches, const ModelOptions& options) {
  for (const double caught : catches)
    if (!(caught >= 0 && caught < 1e9))
      throw InputError(messages::kItemRemovalCatches,
                       {messages::kCatchIs, {{"caught", std::to_string(caught)}}}, messages::kGiveTakenOut);
  const FirstCaptures sums = sums_of(catches);
  if (catches.size() < 2 || sums.caught == 0)
    throw InputError(
        messages::kItemRemovalCatches,
        {messages::kPassesAndAnimals, {{"passes", catches.size()}, {"animals", std::to_string(sums.caught)}}},
        messages::kTwoPassesNeeded);
  FittedModel model;
  model.name = "removal";
  model.description = Message(messages::kModelRemoval).words();
  add_population_size(model.likelihood, sums.caught, sums.caught / 4);
  model.likelihood.add(chance_of_capture(), Link::logit, 0.3);
  if (removal_criterion(catches) <= 0) send_to_infinity(model.likelihood);
  model.likelihood.minus_log_likelihood = [=](const Eigen::VectorXd& x, Eigen::VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -first_capture_part(sums, theta[0], theta[1]); }, x,
                    gradient);
  };
  model.fit = fit(model.likelihood, {options.seed, true, options.overdispersion});
  model.parameters = model.fit.rank;
  model.log_likelihood = model.fit.log_likelihood;
  model.sample_size = sums.caught;
  Estimate n = number_of(model, sums, options);
  n.details["existence_criterion"] = removal_criterion(catches);
  n.assumptions = {messages::kNoneButTakenOut, messages::kOneChanceAPass};
  n.source = "Zippin (1958), J. Wildl. Manage. 22:82-90; Seber & Whale (1970), Biometrics 26:393-400";
  model.estimates = {n, natural_estimate(model.likelihood, model.fit, 1, options.level, options.profile)};
  return model;
}

}  // namespace evet::models
