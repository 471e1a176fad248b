// Mh, Mth and Mbh by a mixture of two groups of animals that differ in catchability.
#include <algorithm>
#include <cmath>

#include "models/closed/full_likelihood.h"
#include "models/closed/log_choose.h"
#include "models/closed/messages.h"
#include "models/closed/population_size.h"
#include "models/fit/logit_shift.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

// Multiplicities that published kernels on capture frequencies include and history likelihoods leave out.
double frequency_constant(const ClosedCounts& counts) {
  double sum = 0;
  for (const ClosedCounts::Class& c : counts.classes) sum += c.animals * log_choose(c.exposed, c.captures);
  return sum;
}

Parameter of_group(const MessageText& word, std::optional<int> occasion = {}) {
  return {Quantity::capture, occasion, {}, Parameter::Kind::inner, {}, &word};
}

// Coordinates of two groups, and the logit of the mean chance about which they are looked for.
struct TwoGroups {
  Index share, low, high;
  double centre;
};

TwoGroups add_two_groups(Likelihood& likelihood, const ClosedCounts& counts) {
  TwoGroups groups{};
  const double guess = guess_unseen(counts);
  const double p = counts.captures() / (counts.occasions * (counts.seen + guess));
  groups.centre = std::log(p / (1 - std::min(p, 1 - 1e-9)));
  add_population_size(likelihood, counts.seen, guess);
  groups.share = likelihood.add(inner(messages::kShareHarder), Link::logit, 0.5);
  groups.low = likelihood.add(of_group(messages::kChanceLow), Link::logit, logistic(groups.centre - 0.7));
  groups.high = likelihood.add(of_group(messages::kChanceHigh), Link::logit, logistic(groups.centre + 0.7));
  return groups;
}

void add_shape_starts(Likelihood& likelihood, const TwoGroups& groups) {
  for (const auto& [weight, below, above] : {std::tuple{0.0, 1.0, 1.0},
                                             {1.0, 0.5, 1.5},
                                             {-1.0, 2.0, 0.3},
                                             {3.0, 0.1, 4.0},
                                             {-0.5, 1.5, 0.2},
                                             {2.0, 0.3, 2.5}}) {
    VectorXd start = likelihood.start;
    start[groups.share] = weight;
    start[groups.low] = groups.centre - below;
    start[groups.high] = groups.centre + above;
    likelihood.further_starts.push_back(start);
  }
}

// The group that is harder to catch first, whichever way the search labelled them.
void order_groups(FittedModel& model, const TwoGroups& groups) {
  const auto [share, low, high, centre] = groups;
  if (model.fit.theta[low] <= model.fit.theta[high]) return;
  Eigen::PermutationMatrix<Eigen::Dynamic> swap(model.fit.theta.size());
  swap.setIdentity();
  std::swap(swap.indices()[low], swap.indices()[high]);
  VectorXd sign = VectorXd::Ones(model.fit.theta.size());
  sign[share] = -1;
  model.fit.theta = swap * sign.cwiseProduct(model.fit.theta);
  for (Eigen::MatrixXd* matrix : {&model.fit.covariance, &model.fit.information})
    *matrix = swap * (sign.asDiagonal() * *matrix * sign.asDiagonal()) * swap.transpose();
  for (auto* flags : {&model.fit.boundary, &model.fit.unidentified})
    std::vector<bool>::swap((*flags)[static_cast<std::size_t>(low)],
                            (*flags)[static_cast<std::size_t>(high)]);
  const Parameter of_low = model.likelihood.parameters[static_cast<std::size_t>(low)];
  const Parameter of_high = model.likelihood.parameters[static_cast<std::size_t>(high)];
  for (auto* named : {&model.fit.at_boundary, &model.fit.not_estimable})
    for (Parameter& one : *named) one = one == of_low ? of_high : one == of_high ? of_low : one;
}

void finish_mixture(FittedModel& model, const ClosedCounts& counts, const ModelOptions& options,
                    const Message& further_assumption) {
  model.estimates = {population_estimate(model, 0, counts.seen, options)};
  for (Index i = 1; i < model.fit.theta.size(); ++i)
    model.estimates.push_back(
        natural_estimate(model.likelihood, model.fit, i, options.level, options.profile));
  Estimate& n = model.estimates.front();
  n.assumptions = {messages::kTwoGroupsNoFurther, further_assumption};
  n.source = "Pledger (2000), Biometrics 56:434-442; Norris & Pollock (1996), Biometrics 52:639-649";
  n.warnings.push_back(messages::kNumbersCanDiffer);
  n.details["log_likelihood_of_frequencies"] = model.log_likelihood + frequency_constant(counts);
}

}  // namespace

FittedModel fit_mixture(const ClosedCounts& counts, const ModelOptions& options) {
  FittedModel model;
  model.name = "mixture";
  model.description = Message(messages::kModelMixture).words();
  const TwoGroups groups = add_two_groups(model.likelihood, counts);
  add_shape_starts(model.likelihood, groups);
  const auto log_likelihood = [counts](const auto& theta) {
    using std::exp;
    const auto unseen = exp(theta[0]);
    const auto log_share = log_logistic(theta[1]), log_rest = log_logistic(-theta[1]);
    const auto log_p = log_logistic(theta[2]), log_q = log_logistic(-theta[2]);
    const auto log_p_high = log_logistic(theta[3]), log_q_high = log_logistic(-theta[3]);
    const auto one = [&](double captures, double misses) {
      return log_sum_exp(log_share + captures * log_p + misses * log_q,
                         log_rest + captures * log_p_high + misses * log_q_high);
    };
    auto sum = log_ways(counts.seen, unseen) + unseen * one(0, counts.occasions);
    for (const ClosedCounts::Class& c : counts.classes)
      sum += c.animals * one(c.captures, c.exposed - c.captures);
    return sum;
  };
  model.likelihood.minus_log_likelihood = [=](const VectorXd& x, VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood(theta); }, x, gradient);
  };
  finish_closed(model, counts, options);
  order_groups(model, groups);
  finish_mixture(model, counts, options, messages::kOneChanceInGroup);
  return model;
}

FittedModel fit_occasion_mixture(const ClosedCounts& counts, const ModelOptions& options) {
  FittedModel model;
  model.name = "occasion-mixture";
  model.description = Message(messages::kModelOccasionMixture).words();
  const std::size_t t = counts.caught.size();
  const double guess = guess_unseen(counts);
  add_population_size(model.likelihood, counts.seen, guess);
  const Index share = model.likelihood.add(inner(messages::kShareHarder), Link::logit, 0.5);
  const Index gap = model.likelihood.add(inner(messages::kGapBetween), Link::log, 1.4);
  model.likelihood.upper[gap] = 3;
  model.likelihood.high_end[gap] = 2.7;
  model.likelihood.lower[gap] = -10;
  model.likelihood.low_end[gap] = -5;
  for (std::size_t j = 0; j < t; ++j)
    model.likelihood.add(of_group(messages::kChanceLow, static_cast<int>(j) + 1), Link::logit,
                         (counts.caught[j] + 0.1) / (counts.seen + guess + 0.2) / 2);
  for (const auto& [weight, wide, drop] :
       {std::tuple{1.0, 0.7, 0.3}, {-1.0, 0.7, 1.5}, {3.0, 1.3, 0.1}, {0.0, -1.0, 0.2}}) {
    VectorXd start = model.likelihood.start;
    start[share] = weight;
    start[gap] = wide;
    start.tail(static_cast<Index>(t)).array() += 0.7 - drop;
    model.likelihood.further_starts.push_back(start);
  }
  // With logit p = occasion + group the histories enter only through the catches and the capture frequencies.
  const auto log_likelihood = [counts, t](const auto& theta) {
    using std::exp;
    const auto unseen = exp(theta[0]);
    const auto log_share = log_logistic(theta[1]), log_rest = log_logistic(-theta[1]);
    const auto wide = exp(theta[2]);
    auto sum = log_ways(counts.seen, unseen);
    std::vector<std::decay_t<decltype(sum)>> none_low = {0 * wide}, none_high = {0 * wide};
    for (std::size_t j = 0; j < t; ++j) {
      sum += counts.caught[j] * theta[3 + j];
      none_low.push_back(none_low.back() + log_logistic(-theta[3 + j]));
      none_high.push_back(none_high.back() + log_logistic(-theta[3 + j] - wide));
    }
    sum += unseen * log_sum_exp(log_share + none_low[t], log_rest + none_high[t]);
    for (const ClosedCounts::Class& c : counts.classes) {
      const auto e = static_cast<std::size_t>(c.exposed);
      sum += c.animals * log_sum_exp(log_share + none_low[e], log_rest + c.captures * wide + none_high[e]);
    }
    return sum;
  };
  model.likelihood.minus_log_likelihood = [=](const VectorXd& x, VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood(theta); }, x, gradient);
  };
  finish_closed(model, counts, options);
  finish_mixture(model, counts, options, messages::kNightsActedAlike);
  return model;
}

FittedModel fit_response_mixture(const ClosedCounts& counts, const ModelOptions& options) {
  FittedModel model;
  model.name = "response-mixture";
  model.description = Message(messages::kModelResponseMixture).words();
  const TwoGroups groups = add_two_groups(model.likelihood, counts);
  add_logit_shift(model.likelihood, inner(messages::kResponseShift));
  add_shape_starts(model.likelihood, groups);
  const auto log_likelihood = [counts](const auto& theta) {
    using std::exp;
    const auto unseen = exp(theta[0]);
    const auto log_share = log_logistic(theta[1]), log_rest = log_logistic(-theta[1]);
    const auto log_q_low = log_logistic(-theta[2]), log_q_high = log_logistic(-theta[3]);
    const auto log_p_low = log_logistic(theta[2]), log_p_high = log_logistic(theta[3]);
    const auto again_low = log_logistic(theta[2] + theta[4]), miss_low = log_logistic(-theta[2] - theta[4]);
    const auto again_high = log_logistic(theta[3] + theta[4]), miss_high = log_logistic(-theta[3] - theta[4]);
    auto sum = log_ways(counts.seen, unseen) + unseen * log_sum_exp(log_share + counts.occasions * log_q_low,
                                                                    log_rest + counts.occasions * log_q_high);
    for (const ClosedCounts::FirstClass& c : counts.first_classes) {
      const double missed = c.exposed_after - c.recaptures;
      sum += c.animals * log_sum_exp(log_share + c.first * log_q_low + log_p_low + c.recaptures * again_low +
                                         missed * miss_low,
                                     log_rest + c.first * log_q_high + log_p_high +
                                         c.recaptures * again_high + missed * miss_high);
    }
    return sum;
  };
  model.likelihood.minus_log_likelihood = [=](const VectorXd& x, VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood(theta); }, x, gradient);
  };
  finish_closed(model, counts, options);
  order_groups(model, groups);
  finish_mixture(model, counts, options, messages::kShiftedInBothGroups);
  return model;
}

}  // namespace evet::models
