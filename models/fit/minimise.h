// The one optimiser behind every model: NLopt's quasi-Newton method to come near, then a damped Newton method
// with second derivatives by differences of exact gradients to arrive; further starts where surfaces have
// several hollows.
//
// Box limits stand for the ends of log and logit scales. Where the surface is flat along a direction the
// search still ends; the caller reads the rank from the Hessian.
#pragma once
#include <Eigen/Core>
#include <cstdint>
#include <functional>
#include <limits>
#include <vector>

namespace evet::models {

// Stands for "no value here".
inline constexpr double kNoValue = std::numeric_limits<double>::infinity();

// Value at x, and the gradient when the pointer is not null. A value that is not finite
// marks x as out of range.
using Objective = std::function<double(const Eigen::VectorXd& x, Eigen::VectorXd* gradient)>;

struct MinimiseOptions {
  Eigen::VectorXd lower, upper;                 // box; empty: none
  std::vector<Eigen::VectorXd> further_starts;  // tried besides the first
  int random_starts = 0;                        // so many more, normal around the first start
  double random_spread = 1;                     // their standard deviation in each coordinate
  std::uint64_t seed = 1;
  bool warm_start = true;   // false: Newton steps from the start itself
  double typical_size = 1;  // least size of a coordinate for difference steps
  int max_newton_steps = 200;
  double enough_gain = 0;  // a Newton step that promises no more than this is the last one
  // Also come near by a simplex search (NLopt) and by Newton steps on the logarithms of the coordinates.
  bool hard_surface = false;
  double longest_relative_step = kNoValue;
};

struct Minimum {
  Eigen::VectorXd x;
  double value = 0;
  Eigen::VectorXd gradient;
  Eigen::MatrixXd hessian;
  bool converged = false;
  int newton_steps = 0;
};

Minimum minimise(const Objective& objective, const Eigen::VectorXd& start,
                 const MinimiseOptions& options = {});

// Symmetric second derivatives from central differences of the gradient.
Eigen::MatrixXd hessian_by_differences(const Objective& objective, const Eigen::VectorXd& x,
                                       double typical_size = 1);
// First derivatives of a function that states none, from central differences of its value.
Eigen::VectorXd slope_by_differences(const std::function<double(const Eigen::VectorXd&)>& function,
                                     const Eigen::VectorXd& x);
// Gradient by fourth-order central differences of the value: what the tests hold exact gradients to.
Eigen::VectorXd gradient_by_differences(const Objective& objective, const Eigen::VectorXd& x);

}  // namespace evet::models
