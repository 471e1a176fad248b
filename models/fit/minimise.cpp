#include "models/fit/minimise.h"

#include <Eigen/Cholesky>
#include <cmath>
#include <nlopt.hpp>

#include "models/base/random.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

VectorXd into_box(VectorXd x, const MinimiseOptions& options) {
  if (options.lower.size() == x.size()) x = x.cwiseMax(options.lower);
  if (options.upper.size() == x.size()) x = x.cwiseMin(options.upper);
  return x;
}

// Coordinates that rest on a limit and are pushed against it.
std::vector<bool> held(const VectorXd& x, const VectorXd& gradient, const MinimiseOptions& options) {
  std::vector<bool> is_held(static_cast<std::size_t>(x.size()), false);
  for (Index i = 0; i < x.size(); ++i) {
    const bool low = options.lower.size() == x.size() && x[i] <= options.lower[i] && gradient[i] >= 0;
    const bool high = options.upper.size() == x.size() && x[i] >= options.upper[i] && gradient[i] <= 0;
    is_held[static_cast<std::size_t>(i)] = low || high;
  }
  return is_held;
}

double shortening(const VectorXd& x, const VectorXd& step, const MinimiseOptions& options) {
  const VectorXd size = x.cwiseAbs().cwiseMax(options.typical_size);
  const double longest = step.cwiseQuotient(size).cwiseAbs().maxCoeff();
  return longest > options.longest_relative_step ? options.longest_relative_step / longest : 1;
}

VectorXd come_near(const Objective& objective, const VectorXd& start, const MinimiseOptions& options,
                   nlopt::algorithm algorithm, int evaluations) {
  nlopt::opt search(algorithm, static_cast<unsigned>(start.size()));
  const std::vector<double> scale = [&] {
    std::vector<double> sizes;
    for (const double x : start) sizes.push_back(std::max(std::abs(x), options.typical_size));
    return sizes;
  }();
  const auto map = [&](const std::vector<double>& u) {
    VectorXd x(start.size());
    for (Index i = 0; i < x.size(); ++i)
      x[i] = u[static_cast<std::size_t>(i)] * scale[static_cast<std::size_t>(i)];
    return x;
  };
  struct Call {
    const Objective& objective;
    const decltype(map)& to_x;
    const std::vector<double>& scale;
  } call{objective, map, scale};
  search.set_min_objective(
      [](const std::vector<double>& u, std::vector<double>& gradient, void* data) {
        const Call& c = *static_cast<Call*>(data);
        VectorXd slope;
        const double value = c.objective(c.to_x(u), gradient.empty() ? nullptr : &slope);
        const bool usable = std::isfinite(value) && (gradient.empty() || slope.allFinite());
        for (std::size_t i = 0; i < gradient.size(); ++i)
          gradient[i] = usable ? slope[static_cast<Index>(i)] * c.scale[i] : 0;
        return usable ? value : 1e100;
      },
      &call);
  std::vector<double> u(scale.size());
  for (std::size_t i = 0; i < u.size(); ++i) u[i] = start[static_cast<Index>(i)] / scale[i];
  if (options.lower.size() == start.size() && options.upper.size() == start.size()) {
    std::vector<double> low(u.size()), high(u.size());
    for (std::size_t i = 0; i < u.size(); ++i) {
      low[i] = options.lower[static_cast<Index>(i)] / scale[i];
      high[i] = options.upper[static_cast<Index>(i)] / scale[i];
    }
    search.set_lower_bounds(low);
    search.set_upper_bounds(high);
  }
  search.set_maxeval(evaluations);
  search.set_ftol_rel(1e-9);
  double value = 0;
  try {
    search.optimize(u, value);
  } catch (const std::exception&) {
    // NLopt gives up on rounding trouble and keeps its best point in u; the Newton steps
    // decide what it is worth.
  }
  const VectorXd near = into_box(map(u), options);
  const double before = objective(start, nullptr);
  const double after = objective(near, nullptr);
  return std::isfinite(after) && !(before < after) ? near : start;
}

// Curvature and slope in units where every curvature is one, so that badly scaled coordinates are damped alike;
// without those that rest on a limit.
struct Scaled {
  VectorXd unit, slope;
  MatrixXd curvature;
};

Scaled scaled_at(const Minimum& at, const MinimiseOptions& options) {
  const std::vector<bool> fixed = held(at.x, at.gradient, options);
  MatrixXd curvature = at.hessian;
  VectorXd slope = at.gradient;
  VectorXd size = curvature.diagonal().cwiseAbs();
  const double floor = std::max(1e-300, 1e-12 * size.maxCoeff());
  for (Index i = 0; i < slope.size(); ++i) {
    size[i] = std::max(size[i], floor);
    if (!fixed[static_cast<std::size_t>(i)]) continue;
    slope[i] = 0;
    curvature.row(i).setZero();
    curvature.col(i).setZero();
    curvature(i, i) = size[i];
  }
  Scaled scaled;
  scaled.unit = size.cwiseSqrt().cwiseInverse();
  scaled.curvature = scaled.unit.asDiagonal() * curvature * scaled.unit.asDiagonal();
  scaled.slope = scaled.unit.cwiseProduct(slope);
  return scaled;
}

Minimum newton(const Objective& objective, VectorXd x, const MinimiseOptions& options) {
  Minimum at;
  at.x = into_box(std::move(x), options);
  at.value = objective(at.x, &at.gradient);
  if (!std::isfinite(at.value) || !at.gradient.allFinite()) return at;
  double damping = 0;
  for (; at.newton_steps < options.max_newton_steps; ++at.newton_steps) {
    at.hessian = hessian_by_differences(objective, at.x, options.typical_size);
    if (!at.hessian.allFinite()) return at;
    const Scaled near = scaled_at(at, options);
    bool moved = false;
    bool tiny = false;
    for (int attempt = 0; attempt < 60; ++attempt) {
      MatrixXd damped = near.curvature;
      damped.diagonal().array() += damping + 1e-13;
      const Eigen::LLT<MatrixXd> root(damped);
      if (root.info() == Eigen::Success) {
        VectorXd step = -root.solve(near.slope);
        step *= shortening(at.x, near.unit.cwiseProduct(step), options);
        const double gain = -step.dot(near.slope);
        tiny = gain <= 1e-12 * (std::abs(at.value) + 1e-300) && damping <= 1e-3;
        const VectorXd next = into_box(at.x + near.unit.cwiseProduct(step), options);
        VectorXd next_slope;
        const double value = step.allFinite() ? objective(next, &next_slope) : kNoValue;
        if (std::isfinite(value) && next_slope.allFinite() && value <= at.value) {
          const bool stands = gain <= 1e-22 * (std::abs(at.value) + 1e-300) || next == at.x ||
                              (gain <= options.enough_gain && damping <= 1e-3);
          at.x = next;
          at.value = value;
          at.gradient = next_slope;
          damping = damping < 1e-9 ? 0 : damping / 10;
          moved = true;
          if (stands) {
            at.converged = true;
            return at;
          }
          break;
        }
        if (tiny) break;
      }
      damping = damping == 0 ? 1e-6 : damping * 10;
      if (damping > 1e12) break;
    }
    if (!moved) {
      at.converged = tiny;
      return at;
    }
  }
  return at;
}

// Newton steps on the factor by which each coordinate changes from its start, for those of very unlike size.
VectorXd come_near_by_factors(const Objective& objective, const VectorXd& start,
                              const MinimiseOptions& options) {
  const auto by_factors = [&](const VectorXd& u, VectorXd* gradient) {
    const VectorXd x = start.cwiseProduct(u.array().exp().matrix());
    const double value = objective(x, gradient);
    if (gradient) *gradient = gradient->cwiseProduct(x);
    return value;
  };
  MinimiseOptions plain;
  plain.longest_relative_step = 2;
  plain.max_newton_steps = options.max_newton_steps;
  const Minimum near = newton(by_factors, VectorXd::Zero(start.size()), plain);
  return into_box(start.cwiseProduct(near.x.array().exp().matrix()), options);
}

bool better(const Minimum& a, const Minimum& b) {
  if (!std::isfinite(b.value)) return std::isfinite(a.value);
  const double slack = 1e-9 * (1 + std::abs(b.value));
  if (a.value < b.value - slack) return true;
  return a.value <= b.value + slack && a.converged && !b.converged;
}

}  // namespace

MatrixXd hessian_by_differences(const Objective& objective, const VectorXd& x, double typical_size) {
  const Index n = x.size();
  MatrixXd hessian(n, n);
  VectorXd above(n), below(n), at = x;
  for (Index i = 0; i < n; ++i) {
    const double wanted = 6e-6 * std::max(std::abs(x[i]), typical_size);
    at[i] = x[i] + wanted;
    const double up = at[i] - x[i];
    objective(at, &above);
    at[i] = x[i] - wanted;
    const double down = x[i] - at[i];
    objective(at, &below);
    at[i] = x[i];
    hessian.col(i) = (above - below) / (up + down);
  }
  return (hessian + hessian.transpose()) / 2;
}

VectorXd slope_by_differences(const std::function<double(const VectorXd&)>& function, const VectorXd& x) {
  VectorXd slope(x.size()), at = x;
  for (Index i = 0; i < x.size(); ++i) {
    const double h = 1e-5 * std::max(1.0, std::abs(x[i]));
    at[i] = x[i] + h;
    const double up = function(at);
    at[i] = x[i] - h;
    slope[i] = (up - function(at)) / (2 * h);
    at[i] = x[i];
  }
  return slope;
}

VectorXd gradient_by_differences(const Objective& objective, const VectorXd& x) {
  VectorXd gradient(x.size()), at = x;
  for (Index i = 0; i < x.size(); ++i) {
    const double h = 1e-3 * std::max(std::abs(x[i]), 1.0);
    const auto value = [&](double offset) {
      at[i] = x[i] + offset * h;
      return objective(at, nullptr);
    };
    gradient[i] = (value(-2) - 8 * value(-1) + 8 * value(1) - value(2)) / (12 * h);
    at[i] = x[i];
  }
  return gradient;
}

Minimum minimise(const Objective& objective, const VectorXd& start, const MinimiseOptions& options) {
  std::vector<VectorXd> starts = {into_box(start, options)};
  for (const VectorXd& further : options.further_starts) starts.push_back(into_box(further, options));
  Random random(options.seed);
  for (int i = 0; i < options.random_starts; ++i) {
    VectorXd x = start;
    for (double& coordinate : x) coordinate += options.random_spread * random.normal();
    starts.push_back(into_box(x, options));
  }
  Minimum best;
  best.value = kNoValue;
  best.x = starts.front();
  for (const VectorXd& from : starts) {
    const auto consider = [&](const VectorXd& x) {
      const Minimum found = newton(objective, x, options);
      if (better(found, best)) best = found;
    };
    consider(options.warm_start ? come_near(objective, from, options, nlopt::LD_LBFGS, 300) : from);
    if (options.hard_surface) {
      consider(from);
      consider(come_near_by_factors(objective, from, options));
      consider(come_near(objective, from, options, nlopt::LN_NELDERMEAD, 4000));
    }
  }
  if (best.hessian.size() == 0) best.hessian = MatrixXd::Zero(best.x.size(), best.x.size());
  return best;
}

}  // namespace evet::models
