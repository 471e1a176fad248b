// Gradients by reverse-mode automatic differentiation.
//
// A likelihood is written once as a template over its number type and run with double for the value and with
// Var for the gradient, whose cost is a small multiple of the value's whatever the number of parameters.
// Griewank & Walther (2008), Evaluating Derivatives, SIAM, ch. 3.
#pragma once
#include <Eigen/Core>
#include <boost/math/special_functions/digamma.hpp>
#include <cmath>
#include <vector>

namespace evet::models {

struct Var;

// The list of operations of one evaluation. One is active a thread at a time.
class Tape {
 public:
  Tape();
  ~Tape();
  Tape(const Tape&) = delete;
  Tape& operator=(const Tape&) = delete;

  Var variable(double value);
  // d result / d v for each of the first `count` variables made on this tape.
  Eigen::VectorXd gradient(const Var& result, Eigen::Index count);

  static Tape& active();
  int record(int a, double da, int b, double db) {
    nodes_.push_back({a, b, da, db});
    return static_cast<int>(nodes_.size()) - 1;
  }

 private:
  struct Node {
    int a, b;
    double da, db;
  };
  std::vector<Node> nodes_;
  Tape* outer_;
};

// A number that remembers how it was made. Node -1: a constant.
struct Var {
  double value = 0;
  int node = -1;
  Var() = default;
  Var(double constant) : value(constant) {}  // NOLINT: constants mix freely with variables
  Var(double v, int n) : value(v), node(n) {}
};

inline Var unary(double value, const Var& x, double slope) {
  return x.node < 0 ? Var(value) : Var(value, Tape::active().record(x.node, slope, -1, 0));
}
inline Var binary(double value, const Var& x, double dx, const Var& y, double dy) {
  return x.node < 0 && y.node < 0 ? Var(value) : Var(value, Tape::active().record(x.node, dx, y.node, dy));
}

inline Var operator+(const Var& x, const Var& y) {
  return binary(x.value + y.value, x, 1, y, 1);
}
inline Var operator-(const Var& x, const Var& y) {
  return binary(x.value - y.value, x, 1, y, -1);
}
inline Var operator*(const Var& x, const Var& y) {
  return binary(x.value * y.value, x, y.value, y, x.value);
}
inline Var operator/(const Var& x, const Var& y) {
  return binary(x.value / y.value, x, 1 / y.value, y, -x.value / (y.value * y.value));
}
inline Var operator-(const Var& x) {
  return unary(-x.value, x, -1);
}
inline Var& operator+=(Var& x, const Var& y) {
  return x = x + y;
}
inline Var& operator-=(Var& x, const Var& y) {
  return x = x - y;
}
inline Var& operator*=(Var& x, const Var& y) {
  return x = x * y;
}

inline Var exp(const Var& x) {
  const double e = std::exp(x.value);
  return unary(e, x, e);
}
inline Var log(const Var& x) {
  return unary(std::log(x.value), x, 1 / x.value);
}
inline Var log1p(const Var& x) {
  return unary(std::log1p(x.value), x, 1 / (1 + x.value));
}
inline Var atan(const Var& x) {
  return unary(std::atan(x.value), x, 1 / (1 + x.value * x.value));
}
inline Var lgamma(const Var& x) {
  return unary(std::lgamma(x.value), x, boost::math::digamma(x.value));
}

// Stable forms that likelihoods are made of, for double and for Var alike.
inline double logistic(double x) {
  return x >= 0 ? 1 / (1 + std::exp(-x)) : std::exp(x) / (1 + std::exp(x));
}
inline double log_logistic(double x) {
  return x >= 0 ? -std::log1p(std::exp(-x)) : x - std::log1p(std::exp(x));
}
inline Var logistic(const Var& x) {
  const double p = logistic(x.value);
  return unary(p, x, p * logistic(-x.value));
}
inline Var log_logistic(const Var& x) {
  return unary(log_logistic(x.value), x, logistic(-x.value));
}
inline double value_of(double x) {
  return x;
}
inline double value_of(const Var& x) {
  return x.value;
}
// ln(1 - e^x) for x < 0.
inline double log1m_exp(double x) {
  return x > -0.6931471805599453 ? std::log(-std::expm1(x)) : std::log1p(-std::exp(x));
}
inline Var log1m_exp(const Var& x) {
  return unary(log1m_exp(x.value), x, -1 / std::expm1(-x.value));
}
template <class T>
T log_sum_exp(const T& x, const T& y) {
  using std::exp;
  using std::log1p;
  const bool x_larger = value_of(x) >= value_of(y);
  const T& large = x_larger ? x : y;
  const T& small = x_larger ? y : x;
  return large + log1p(exp(small - large));
}
// y added to x where the derivatives of y are already known: `slopes` by the variables they belong to.
Var add_with_slopes(const Var& x, double y, const std::vector<Var>& variables, const double* slopes);

inline std::vector<double> as_vector(const Eigen::VectorXd& x) {
  return {x.data(), x.data() + x.size()};
}

// Value, and gradient where asked for, of a template `f` called with a vector of double or Var.
template <class F>
double evaluate(const F& f, const Eigen::VectorXd& x, Eigen::VectorXd* gradient) {
  if (!gradient) return f(as_vector(x));
  Tape tape;
  std::vector<Var> variables;
  variables.reserve(static_cast<std::size_t>(x.size()));
  for (const double value : x) variables.push_back(tape.variable(value));
  const Var result = f(variables);
  *gradient = tape.gradient(result, x.size());
  return result.value;
}

}  // namespace evet::models
