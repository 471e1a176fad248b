#include "models/fit/likelihood.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

#include "models/base/messages.h"
#include "models/fit/messages.h"
#include "models/fit/tape.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// Covariance from the information, without the directions in which the likelihood is flat.
void read_information(const Likelihood& likelihood, Fit& fit) {
  const Index n = fit.theta.size();
  fit.boundary.assign(static_cast<std::size_t>(n), false);
  fit.unidentified.assign(static_cast<std::size_t>(n), false);
  fit.covariance = MatrixXd::Zero(n, n);
  fit.flat.resize(n, 0);
  std::vector<Index> free;
  for (Index i = 0; i < n; ++i) {
    const auto at = static_cast<std::size_t>(i);
    if (fit.theta[i] < likelihood.low_end[i] || fit.theta[i] > likelihood.high_end[i]) {
      fit.boundary[at] = true;
      fit.at_boundary.push_back(likelihood.parameters[at]);
    } else {
      free.push_back(i);
    }
  }
  const Index m = static_cast<Index>(free.size());
  fit.rank = static_cast<int>(n - m);
  if (m == 0) return;
  MatrixXd part(m, m);
  for (Index a = 0; a < m; ++a)
    for (Index b = 0; b < m; ++b)
      part(a, b) = fit.information(free[static_cast<std::size_t>(a)], free[static_cast<std::size_t>(b)]);
  const double largest = part.diagonal().cwiseAbs().maxCoeff();
  VectorXd unit(m);
  for (Index a = 0; a < m; ++a)
    unit[a] = 1 / std::sqrt(std::max(std::abs(part(a, a)), 1e-9 * largest + 1e-200));
  const Eigen::SelfAdjointEigenSolver<MatrixXd> eigen(unit.asDiagonal() * part * unit.asDiagonal());
  const double threshold = 1e-7 * static_cast<double>(m);
  MatrixXd inverse = MatrixXd::Zero(m, m);
  std::vector<bool> flat(static_cast<std::size_t>(m), false);
  for (Index e = 0; e < m; ++e) {
    const VectorXd direction = eigen.eigenvectors().col(e);
    if (eigen.eigenvalues()[e] > threshold) {
      ++fit.rank;
      inverse += direction * direction.transpose() / eigen.eigenvalues()[e];
      continue;
    }
    VectorXd full = VectorXd::Zero(n);
    for (Index a = 0; a < m; ++a) {
      if (std::abs(direction[a]) > 0.1) flat[static_cast<std::size_t>(a)] = true;
      full[free[static_cast<std::size_t>(a)]] = unit[a] * direction[a];
    }
    fit.flat.conservativeResize(n, fit.flat.cols() + 1);
    fit.flat.rightCols(1) = full.normalized();
  }
  for (Index a = 0; a < m; ++a) {
    const Index i = free[static_cast<std::size_t>(a)];
    if (flat[static_cast<std::size_t>(a)]) {
      fit.unidentified[static_cast<std::size_t>(i)] = true;
      fit.not_estimable.push_back(likelihood.parameters[static_cast<std::size_t>(i)]);
    }
    for (Index b = 0; b < m; ++b)
      fit.covariance(i, free[static_cast<std::size_t>(b)]) = unit[a] * inverse(a, b) * unit[b];
  }
}

MinimiseOptions minimise_options(const Likelihood& likelihood, const FitOptions& options) {
  MinimiseOptions how;
  how.lower = likelihood.lower;
  how.upper = likelihood.upper;
  how.seed = options.seed;
  how.warm_start = options.warm_start;
  how.longest_relative_step = 6;
  how.enough_gain = 1e-10;  // of log-likelihood; the step is still taken
  return how;
}

bool at_end(const Likelihood& likelihood, const VectorXd& theta, Index i) {
  return theta[i] < likelihood.low_end[i] || theta[i] > likelihood.high_end[i];
}

// A search along a level ridge may come to rest at the end of the range of a parameter, which then looks like
// an estimate at its boundary. Where an equally good fit exists inside, that one is taken, so that the
// Hessian shows what cannot be told apart.
void step_off_flat_ends(const Likelihood& likelihood, const FitOptions& options, Minimum& found) {
  const Index n = found.x.size();
  for (Index i = 0; i < n && n > 1; ++i) {
    if (!at_end(likelihood, found.x, i) || likelihood.links[static_cast<std::size_t>(i)] == Link::log)
      continue;
    MinimiseOptions how = minimise_options(likelihood, options);
    how.warm_start = false;
    const double inside = found.x[i] > 0 ? 2 : -2;
    how.lower[i] = how.upper[i] = inside;
    VectorXd start = found.x;
    start[i] = inside;
    const Minimum other = minimise(likelihood.minus_log_likelihood, start, how);
    if (other.converged && other.value < found.value + 1e-6 * (1 + std::abs(found.value) * 1e-3)) {
      found.x = other.x;
      found.value = std::min(found.value, other.value);
    }
  }
}

// The profile: all coordinates but one are fitted anew, starting from where they were last.
class Profile {
 public:
  Profile(const Likelihood& likelihood, const Fit& fit, Index which)
      : likelihood_(likelihood), fit_(fit), which_(which) {
    how_ = minimise_options(likelihood, {});
    how_.warm_start = false;
    how_.enough_gain = 1e-7;
    how_.max_newton_steps = 60;
    how_.lower = without(how_.lower);
    how_.upper = without(how_.upper);
    others_ = without(fit.theta);
    const double variance = fit.covariance(which, which);
    slope_ = VectorXd::Zero(others_.size());
    if (variance > 0) slope_ = without(fit.covariance.col(which)) / variance;
    for (Index i = 0; i < fit.theta.size(); ++i)
      if (i != which && fit.boundary[static_cast<std::size_t>(i)] && !is_pinned(i))
        ends_.push_back(i < which ? i : i - 1);
  }

  double drop(double at) {
    const auto objective = [&](const VectorXd& others, VectorXd* gradient) {
      VectorXd full;
      const double value = likelihood_.minus_log_likelihood(with(others, at), gradient ? &full : nullptr);
      if (gradient) *gradient = without(full);
      return value;
    };
    if (others_.size() == 0) return 2 * (objective(others_, nullptr) + fit_.log_likelihood);
    const VectorXd start = others_ + slope_ * (at - last_or(fit_.theta[which_]));
    Minimum best = minimise(objective, start, how_);
    if (!best.converged) {
      const Minimum again = minimise(objective, without(fit_.theta), how_);
      if (again.converged || !(best.value < again.value)) best = again;
    }
    if (!ends_.empty()) {
      const Minimum inside = minimise(objective, off_the_ends(best.x), how_);
      if (inside.converged && inside.value < best.value) best = inside;
    }
    if (best.converged) {
      if (!std::isnan(last_) && at != last_) slope_ = (best.x - others_) / (at - last_);
      others_ = best.x;
      last_ = at;
    }
    return 2 * (best.value + fit_.log_likelihood);
  }

 private:
  bool is_pinned(Index i) const { return !(likelihood_.lower[i] < likelihood_.upper[i]); }
  // At an end the likelihood is level, so that a search that starts there stays, whatever the profiled coordinate.
  VectorXd off_the_ends(VectorXd others) const {
    constexpr double kInside = 3;
    for (const Index i : ends_) others[i] = std::clamp(others[i], -kInside, kInside);
    return others;
  }
  double last_or(double otherwise) const { return std::isnan(last_) ? otherwise : last_; }
  VectorXd without(const VectorXd& full) const {
    VectorXd part(full.size() - 1);
    part << full.head(which_), full.tail(full.size() - which_ - 1);
    return part;
  }
  VectorXd with(const VectorXd& part, double at) const {
    VectorXd full(part.size() + 1);
    full << part.head(which_), at, part.tail(part.size() - which_);
    return full;
  }

  const Likelihood& likelihood_;
  const Fit& fit_;
  Index which_;
  MinimiseOptions how_;
  VectorXd others_, slope_;
  std::vector<Index> ends_;  // of the others, where the fit has them at the end of their range
  double last_ = kUndefined;
};

}  // namespace

Index Likelihood::add(const Parameter& parameter, Link link, double natural_start) {
  parameters.push_back(parameter);
  links.push_back(link);
  const Index i = start.size();
  for (VectorXd* values : {&start, &lower, &upper, &low_end, &high_end}) values->conservativeResize(i + 1);
  // A probability within 5e-5 of 0 or 1 counts as 0 or 1; the search may go on to 2e-9.
  const double far = link == Link::logit ? 20 : link == Link::log ? 25 : 1e6;
  const double end = link == Link::logit ? 10 : link == Link::log ? 15 : 1e5;
  double coordinate = natural_start;
  if (link == Link::logit) coordinate = std::log(natural_start / (1 - natural_start));
  if (link == Link::log) coordinate = std::log(natural_start);
  lower[i] = -far;
  upper[i] = far;
  low_end[i] = -end;
  high_end[i] = end;
  start[i] = std::isnan(coordinate) ? 0 : std::clamp(coordinate, -end, end);
  return i;
}

double natural(Link link, double coordinate) {
  if (link == Link::logit) return logistic(coordinate);
  if (link == Link::log) return std::exp(coordinate);
  return coordinate;
}

Fit fit(const Likelihood& likelihood, const FitOptions& options) {
  MinimiseOptions how = minimise_options(likelihood, options);
  how.further_starts = likelihood.further_starts;
  how.random_starts = likelihood.random_starts;
  Minimum found = minimise(likelihood.minus_log_likelihood, likelihood.start, how);
  if (found.converged) step_off_flat_ends(likelihood, options, found);
  Fit result;
  result.theta = found.x;
  result.log_likelihood = -found.value;
  result.converged = found.converged;
  result.information = std::isfinite(found.value)
                           ? hessian_by_differences(likelihood.minus_log_likelihood, found.x)
                           : MatrixXd::Zero(found.x.size(), found.x.size());
  if (!result.information.allFinite()) {
    result.information.setZero();
    result.converged = false;
  }
  read_information(likelihood, result);
  result.overdispersion = std::max(1.0, options.overdispersion);
  result.covariance *= result.overdispersion;
  return result;
}

Sentences Fit::warnings() const {
  if (converged) return {};
  return {messages::kDoNotRely};
}

bool worth_a_profile(const Fit& fit, double sd) {
  constexpr double kNearlyNormal = 0.2;
  constexpr Index kQuickToTrace = 25;
  return sd > kNearlyNormal && fit.theta.size() <= kQuickToTrace && fit.not_estimable.size() <= 2;
}

Estimate natural_estimate(const Likelihood& likelihood, const Fit& fit, Index which, double level,
                          bool profile) {
  const auto at = static_cast<std::size_t>(which);
  const Link link = likelihood.links[at];
  Estimate estimate = estimate_of(likelihood.parameters[at]);
  estimate.value = natural(link, fit.theta[which]);
  if (link == Link::logit && fit.boundary[at]) estimate.value = std::round(estimate.value);
  const bool estimable = !fit.unidentified[at];
  if (!estimable || !fit.converged) {
    estimate.undefined = estimable ? messages::kSearchNotSettled : messages::kNotToldApart;
    estimate.intervals = {
        {natural(link, -kInfinity), natural(link, kInfinity), level, messages::kIntervalNoInformation}};
    return estimate;
  }
  if (fit.boundary[at]) {
    estimate.standard_error = 0;
    // With many parameters at their ends the profile is slow to trace and says little.
    const Interval interval = profile && fit.at_boundary.size() <= 3
                                  ? profile_interval(likelihood, fit, which, level)
                                  : Interval{-kInfinity, kInfinity, level, messages::kIntervalWholeRange};
    estimate.intervals = {
        {natural(link, interval.lower), natural(link, interval.upper), level, interval.method}};
    return estimate;
  }
  const double sd = std::sqrt(std::max(0.0, fit.covariance(which, which)));
  const double slope = link == Link::logit ? estimate.value * (1 - estimate.value)
                       : link == Link::log ? estimate.value
                                           : 1;
  estimate.standard_error = slope * sd;
  const double half = normal_point(level) * sd;
  const MessageText& method = link == Link::logit ? messages::kIntervalNormalOnLogit
                              : link == Link::log ? messages::kIntervalNormalOnLog
                                                  : messages::kIntervalNormal;
  estimate.intervals = {
      {natural(link, fit.theta[which] - half), natural(link, fit.theta[which] + half), level, method}};
  if (profile && link == Link::logit && (likelihood.crooked || worth_a_profile(fit, sd))) {
    const Interval traced = profile_interval(likelihood, fit, which, level);
    if (traced.lower <= fit.theta[which] && traced.upper >= fit.theta[which])
      estimate.intervals.insert(
          estimate.intervals.begin(),
          {natural(link, traced.lower), natural(link, traced.upper), level, traced.method});
  }
  return estimate;
}

Remark why_undefined(const Fit& fit, const std::function<double(const VectorXd&)>& function) {
  if (!fit.converged) return messages::kSearchNotSettled;
  const double value = function(fit.theta);
  if (!std::isfinite(value)) return messages::kBeyondBounds;
  if (fit.flat.cols() == 0) return {};
  const VectorXd slope = slope_by_differences(function, fit.theta);
  const double most = 1e-3 * std::max(std::abs(value), slope.norm()) + 1e-12;
  const bool stays = slope.allFinite() && (fit.flat.transpose() * slope).cwiseAbs().maxCoeff() <= most;
  return stays ? Remark() : Remark(messages::kNotToldApart);
}

double delta_variance(const Fit& fit, const std::function<double(const VectorXd&)>& function) {
  VectorXd slope = slope_by_differences(function, fit.theta);
  for (Index i = 0; i < slope.size(); ++i)
    if (!(fit.covariance(i, i) > 0)) slope[i] = 0;
  return std::max(0.0, slope.dot(fit.covariance * slope));
}

Interval profile_interval(const Likelihood& likelihood, const Fit& fit, Index which, double level) {
  const double z = normal_point(level);
  const double critical = z * z * fit.overdispersion;
  const double hat = fit.theta[which];
  const double sd = std::sqrt(std::max(0.0, fit.covariance(which, which)));
  Interval interval{-kInfinity, kInfinity, level, messages::kIntervalProfileLikelihood};
  for (const bool upper : {false, true}) {
    const double end = upper ? likelihood.upper[which] : likelihood.lower[which];
    Profile profile(likelihood, fit, which);
    double inside = hat, inside_excess = -critical;
    double step = sd > 0 && sd < 5 ? z * sd : 1;
    double outside = kUndefined, outside_excess = 0;
    for (int tries = 0; tries < 60; ++tries) {
      const double next = upper ? std::min(end, inside + step) : std::max(end, inside - step);
      const double excess = profile.drop(next) - critical;
      if (!(excess < 0)) {
        outside = next;
        outside_excess = excess;
        break;
      }
      inside = next;
      inside_excess = excess;
      if (next == end) break;
      step *= 1.6;
    }
    if (std::isnan(outside)) continue;
    // Regula falsi with the Illinois halving.
    int side = 0;
    for (int tries = 0; tries < 60 && std::abs(outside - inside) > 1e-8 * (1 + std::abs(inside)); ++tries) {
      double middle = std::isfinite(outside_excess)
                          ? outside - outside_excess * (outside - inside) / (outside_excess - inside_excess)
                          : (inside + outside) / 2;
      if (tries % 8 == 7) middle = (inside + outside) / 2;
      const double excess = profile.drop(middle) - critical;
      if (std::abs(excess) < 1e-8) {
        inside = outside = middle;
      } else if (!(excess < 0)) {
        outside = middle;
        outside_excess = excess;
        if (side == 1) inside_excess /= 2;
        side = 1;
      } else {
        inside = middle;
        inside_excess = excess;
        if (side == -1) outside_excess /= 2;
        side = -1;
      }
    }
    (upper ? interval.upper : interval.lower) = (inside + outside) / 2;
  }
  return interval;
}

Interval profile_interval(const Likelihood& likelihood, const Fit& fit, const VectorXd& weights,
                          double level) {
  Index pivot = 0;
  weights.cwiseAbs().maxCoeff(&pivot);
  // The coordinate with the largest weight gives way to the sum.
  const auto back = [weights, pivot](VectorXd x) {
    const double others = weights.dot(x) - weights[pivot] * x[pivot];
    x[pivot] = (x[pivot] - others) / weights[pivot];
    return x;
  };
  Likelihood summed = likelihood;
  summed.minus_log_likelihood = [&likelihood, weights, pivot, back](const VectorXd& x, VectorXd* gradient) {
    const double value = likelihood.minus_log_likelihood(back(x), gradient);
    if (gradient) {
      const double slope = (*gradient)[pivot] / weights[pivot];
      *gradient -= slope * weights;
      (*gradient)[pivot] = slope;
    }
    return value;
  };
  constexpr double kFar = 20;  // as far as Likelihood::add lets a logit go
  Fit at = fit;
  at.theta[pivot] = std::clamp(weights.dot(fit.theta), -kFar, kFar);
  at.covariance(pivot, pivot) = weights.dot(fit.covariance * weights);
  summed.lower[pivot] = -kFar;
  summed.upper[pivot] = kFar;
  return profile_interval(summed, at, pivot, level);
}

std::vector<double> profile_drop(const Likelihood& likelihood, const Fit& fit, Index which,
                                 const std::vector<double>& at) {
  std::vector<double> drops;
  drops.reserve(at.size());
  Profile profile(likelihood, fit, which);
  for (const double value : at) drops.push_back(std::max(0.0, profile.drop(value)));
  return drops;
}

}  // namespace evet::models
