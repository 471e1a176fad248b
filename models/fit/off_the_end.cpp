#include "models/fit/off_the_end.h"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>

#include "models/base/messages.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr std::size_t kFew = 3;  // coordinates at an end, as for their own profiles
constexpr int kStepsOffTheEnd = 8;

// A chance has two, a rate above nought one.
bool has_an_end(const Likelihood& likelihood, const Fit& fit, Index i) {
  const Link link = likelihood.links[static_cast<std::size_t>(i)];
  return link == Link::logit || (link == Link::log && fit.theta[i] < 0);
}

double coordinate_of(Link link, double value) {
  if (link == Link::log) return std::log(std::max(value, 1e-4));
  const double chance = std::clamp(value, 1e-4, 1 - 1e-4);
  return std::log(chance / (1 - chance));
}

// Of the coordinates that may move; nought for the others.
MatrixXd covariance_of(const MatrixXd& information, const std::vector<Index>& free) {
  const auto m = static_cast<Index>(free.size());
  MatrixXd covariance = MatrixXd::Zero(information.rows(), information.cols());
  if (m == 0) return covariance;
  MatrixXd part(m, m);
  for (Index a = 0; a < m; ++a)
    for (Index b = 0; b < m; ++b)
      part(a, b) = information(free[static_cast<std::size_t>(a)], free[static_cast<std::size_t>(b)]);
  const MatrixXd inverse = part.completeOrthogonalDecomposition().pseudoInverse();
  for (Index a = 0; a < m; ++a)
    for (Index b = 0; b < m; ++b)
      covariance(free[static_cast<std::size_t>(a)], free[static_cast<std::size_t>(b)]) = inverse(a, b);
  return covariance;
}

}  // namespace

OffTheEnd::OffTheEnd(const Likelihood& likelihood, const Fit& fit, double level)
    : level_(level), critical_(normal_point(level) * normal_point(level) * fit.overdispersion) {
  if (!fit.converged || fit.at_boundary.empty() || fit.at_boundary.size() > kFew) return;
  slices_.push_back({fit.theta, fit.covariance / fit.overdispersion, 0});
  for (Index i = 0; i < fit.theta.size(); ++i)
    if (fit.boundary[static_cast<std::size_t>(i)] && has_an_end(likelihood, fit, i))
      bring_in(likelihood, fit, i);
}

// In equal steps of the chance or rate itself, in which the likelihood falls off nearly in proportion.
void OffTheEnd::bring_in(const Likelihood& likelihood, const Fit& fit, Index which) {
  const Link link = likelihood.links[static_cast<std::size_t>(which)];
  const bool at_one = fit.theta[which] > 0;
  const Interval own = profile_interval(likelihood, fit, which, level_);
  const double furthest = natural(link, at_one ? own.lower : own.upper);
  if (!std::isfinite(furthest)) return;
  const double end = at_one ? 1 : 0;
  std::vector<Index> free;
  for (Index i = 0; i < fit.theta.size(); ++i)
    if (i != which && !fit.boundary[static_cast<std::size_t>(i)]) free.push_back(i);
  MinimiseOptions how;
  how.lower = likelihood.lower;
  how.upper = likelihood.upper;
  how.warm_start = false;
  how.enough_gain = 1e-6;
  how.longest_relative_step = 6;
  VectorXd start = fit.theta;
  for (int step = 1; step <= kStepsOffTheEnd; ++step) {
    const double share = static_cast<double>(step) / kStepsOffTheEnd;
    start[which] = how.lower[which] = how.upper[which] = coordinate_of(link, end + share * (furthest - end));
    const Minimum best = minimise(likelihood.minus_log_likelihood, start, how);
    if (!best.converged) continue;
    start = best.x;
    slices_.push_back({best.x,
                       covariance_of(hessian_by_differences(likelihood.minus_log_likelihood, best.x), free),
                       std::max(0.0, 2 * (best.value + fit.log_likelihood))});
  }
}

bool OffTheEnd::changes(const OfTheta& function) const {
  if (slices_.empty()) return false;
  const double hat = function(slices_.front().theta);
  return std::any_of(slices_.begin(), slices_.end(), [&](const Slice& slice) {
    return std::abs(function(slice.theta) - hat) > 1e-6 * (1 + std::abs(hat));
  });
}

Interval OffTheEnd::limits(const OfTheta& function) const {
  const double hat = function(slices_.front().theta);
  Interval interval{hat, hat, level_, messages::kIntervalProfileLikelihood};
  for (const Slice& slice : slices_) {
    const VectorXd slope = slope_by_differences(function, slice.theta);
    const double left = critical_ - slice.drop, value = function(slice.theta),
                 variance = slope.dot(slice.covariance * slope);
    if (left < -1e-3 * critical_ || !std::isfinite(variance)) continue;
    const double half = std::sqrt(std::max(0.0, left) * std::max(0.0, variance));
    interval.lower = std::min(interval.lower, value - half);
    interval.upper = std::max(interval.upper, value + half);
  }
  return interval;
}

}  // namespace evet::models
