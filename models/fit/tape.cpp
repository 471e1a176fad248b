#include "models/fit/tape.h"

#include <cassert>

namespace evet::models {
namespace {

thread_local Tape* active_tape = nullptr;

}  // namespace

Tape::Tape() : outer_(active_tape) {
  active_tape = this;
}
Tape::~Tape() {
  active_tape = outer_;
}

Tape& Tape::active() {
  assert(active_tape);
  return *active_tape;
}

Var Tape::variable(double value) {
  return {value, record(-1, 0, -1, 0)};
}

Eigen::VectorXd Tape::gradient(const Var& result, Eigen::Index count) {
  std::vector<double> adjoint(nodes_.size(), 0.0);
  if (result.node >= 0) adjoint[static_cast<std::size_t>(result.node)] = 1;
  for (std::size_t i = nodes_.size(); i-- > 0;) {
    const Node& node = nodes_[i];
    if (adjoint[i] == 0) continue;
    if (node.a >= 0) adjoint[static_cast<std::size_t>(node.a)] += adjoint[i] * node.da;
    if (node.b >= 0) adjoint[static_cast<std::size_t>(node.b)] += adjoint[i] * node.db;
  }
  return Eigen::Map<const Eigen::VectorXd>(adjoint.data(), count);
}

Var add_with_slopes(const Var& x, double y, const std::vector<Var>& variables, const double* slopes) {
  Var sum = x + y;
  for (std::size_t i = 0; i < variables.size(); ++i)
    if (slopes[i] != 0 && variables[i].node >= 0) sum = binary(sum.value, sum, 1, variables[i], slopes[i]);
  return sum;
}

}  // namespace evet::models
