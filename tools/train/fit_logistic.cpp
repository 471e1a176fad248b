#include "tools/train/fit_logistic.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "matcher/base/error.h"

namespace evet::train {

LogisticModel fit_logistic(const std::vector<Example>& examples, double ridge) {
  double same = 0, different = 0;
  for (const Example& e : examples) (e.same ? same : different) += e.weight;
  if (same <= 0 || different <= 0)
    throw Error(ErrorKind::bad_input, "fit", "it needs pairs of the same and of different individuals");
  const auto n = static_cast<Eigen::Index>(examples.size()),
             d = static_cast<Eigen::Index>(examples[0].inputs.size());
  LogisticModel model;
  model.mean.assign(static_cast<size_t>(d), 0), model.spread.assign(static_cast<size_t>(d), 0);
  const auto balanced = [&](const Example& e) { return e.weight * 0.5 / (e.same ? same : different); };
  for (const Example& e : examples)
    for (size_t k = 0; k < e.inputs.size(); ++k) model.mean[k] += balanced(e) * e.inputs[k];
  for (const Example& e : examples)
    for (size_t k = 0; k < e.inputs.size(); ++k)
      model.spread[k] += balanced(e) * (e.inputs[k] - model.mean[k]) * (e.inputs[k] - model.mean[k]);
  for (double& s : model.spread) s = std::max(std::sqrt(s), 1e-6);

  Eigen::MatrixXd x(n, 1 + d + d * (d + 1) / 2);
  Eigen::VectorXd y(n), weight(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Example& e = examples[static_cast<size_t>(i)];
    const std::vector<double> terms = expanded(model.standardised(e.inputs));
    for (Eigen::Index k = 0; k < x.cols(); ++k) x(i, k) = terms[static_cast<size_t>(k)];
    y[i] = e.same ? 1 : 0;
    weight[i] = balanced(e) * static_cast<double>(n);
  }
  Eigen::VectorXd w = Eigen::VectorXd::Zero(x.cols());
  Eigen::VectorXd penalty = Eigen::VectorXd::Constant(x.cols(), ridge);
  penalty[0] = 0;
  for (int round = 0; round < 100; ++round) {
    const Eigen::VectorXd p = (1 / (1 + (-(x * w).array()).exp())).matrix();
    const Eigen::VectorXd gradient =
        x.transpose() * (weight.array() * (y - p).array()).matrix() - penalty.cwiseProduct(w);
    const Eigen::VectorXd curvature = weight.array() * p.array() * (1 - p.array());
    Eigen::MatrixXd hessian = x.transpose() * curvature.asDiagonal() * x;
    hessian.diagonal() += penalty + Eigen::VectorXd::Constant(x.cols(), 1e-9);
    Eigen::VectorXd change = hessian.ldlt().solve(gradient);
    const double largest = change.cwiseAbs().maxCoeff();
    if (largest > 2) change *= 2 / largest;  // far from the top, Newton's step overshoots
    w += change;
    if (largest < 1e-8) break;
  }
  model.weights.assign(w.data(), w.data() + w.size());
  return model;
}

namespace {
double cost_bits(double llr, bool same) {
  return std::log1p(std::exp(same ? -llr : llr)) / std::log(2.0);
}
}  // namespace

double llr_cost(const std::vector<double>& llrs, const std::vector<bool>& same) {
  double sum[2] = {0, 0}, n[2] = {0, 0};
  for (size_t i = 0; i < llrs.size(); ++i) sum[same[i]] += cost_bits(llrs[i], same[i]), n[same[i]] += 1;
  return 0.5 * (sum[0] / n[0] + sum[1] / n[1]);
}

double least_llr_cost(const std::vector<double>& llrs, const std::vector<bool>& same) {
  std::vector<size_t> order(llrs.size());
  std::iota(order.begin(), order.end(), size_t{0});
  // At a tie the same-pairs come first, so that the pools cannot use an order that the scores do not give.
  std::sort(order.begin(), order.end(),
            [&](size_t a, size_t b) { return llrs[a] != llrs[b] ? llrs[a] < llrs[b] : same[a] > same[b]; });
  const double n_same = static_cast<double>(std::count(same.begin(), same.end(), true)),
               n_different = static_cast<double>(same.size()) - n_same;
  struct Pool {
    double same = 0, different = 0;
    double share() const { return same / (same + different); }
  };
  std::vector<Pool> pools;
  for (const size_t i : order) {
    pools.push_back(same[i] ? Pool{1 / n_same, 0} : Pool{0, 1 / n_different});
    while (pools.size() > 1 && pools[pools.size() - 2].share() >= pools.back().share()) {
      pools[pools.size() - 2].same += pools.back().same;
      pools[pools.size() - 2].different += pools.back().different;
      pools.pop_back();
    }
  }
  double sum = 0;
  for (const Pool& pool : pools) {
    if (pool.same > 0) sum -= pool.same * std::log2(pool.share());
    if (pool.different > 0) sum -= pool.different * std::log2(1 - pool.share());
  }
  return sum / 2;
}

}  // namespace evet::train
