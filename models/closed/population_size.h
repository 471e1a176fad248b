// The number N as a real parameter on the scale ln(N - seen), shared by all full-likelihood closed models.
#pragma once
#include "models/closed/closed_counts.h"
#include "models/fit/fitted_model.h"
#include "models/fit/tape.h"

namespace evet::models {

// ln Gamma(unseen + seen + 1) - ln Gamma(unseen + 1) without the loss of digits for large numbers.
double log_ways(double seen, double unseen);
Var log_ways(double seen, const Var& unseen);

// What closed models call their chances: of a capture, of one after the first, and what
// has no name of its own.
Parameter chance_of_capture(std::optional<int> occasion = {});
Parameter chance_again();
Parameter inner(const MessageText& word, std::optional<int> occasion = {});

// Adds ln(N - seen) to a likelihood. Below 1e-4 unseen animals N counts as equal to the number seen; beyond
// 8000 times the number seen it counts as infinite.
Eigen::Index add_population_size(Likelihood& likelihood, double seen, double unseen_start);
// A first guess of the animals not seen, from the animals caught once and twice; at least 0.5.
double guess_unseen(const ClosedCounts& counts);

// The estimate of N: value, standard error from the observed information, log-normal and profile intervals,
// and what a surveyor should know. `textbook_se` not below zero replaces the standard error, the other is
// kept in the details.
Estimate population_estimate(const FittedModel& model, Eigen::Index which, double seen,
                             const ModelOptions& options, double textbook_se = -1);
// The whole number with the highest value of a profile that has one summit near `real`.
template <class Profile>
double best_whole(double seen, double real, const Profile& profile) {
  double n = std::max(seen, std::floor(real));
  int left = 1000;  // a profile that is all but level has no summit worth walking to
  while (left-- > 0 && n > seen && profile(n - 1) > profile(n)) --n;
  while (left-- > 0 && profile(n + 1) > profile(n)) ++n;
  return left > 0 ? n : kUndefined;
}

// Fits and fills in what is common to all closed models.
void finish_closed(FittedModel& model, const ClosedCounts& counts, const ModelOptions& options);
// Warnings about thin data, in a surveyor's words.
Sentences thin_data_warnings(const ClosedCounts& counts);
Sentences closed_assumptions();

}  // namespace evet::models
