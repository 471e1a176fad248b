#include "tools/train/fit_logistic.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "tools/train/cost_shares.h"
#include "tools/train/messages.h"

namespace evet::train {

LogisticModel fit_logistic(const std::vector<Example>& examples, const LogisticFit& fit) {
  const std::vector<CostShare> priors = cost_shares(fit.priors);
  double same = 0, different = 0;
  for (const Example& e : examples) (e.same ? same : different) += e.weight;
  if (same <= 0 || different <= 0) throw Error(ErrorKind::bad_input, "fit", messages::kNeedsPairsOfSameAnd);
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

  Eigen::MatrixXd x(n, 1 + d);
  Eigen::VectorXd y(n), weight(n);  // of its kind's whole, n
  for (Eigen::Index i = 0; i < n; ++i) {
    const Example& e = examples[static_cast<size_t>(i)];
    const std::vector<double> z = model.standardised(e.inputs);
    x(i, 0) = 1;
    for (Eigen::Index k = 0; k < d; ++k) x(i, k + 1) = z[static_cast<size_t>(k)];
    y[i] = e.same ? 1 : 0;
    weight[i] = 2 * balanced(e) * static_cast<double>(n);
  }
  Eigen::VectorXd w = Eigen::VectorXd::Zero(x.cols());
  Eigen::VectorXd penalty = Eigen::VectorXd::Constant(x.cols(), fit.ridge);
  penalty[0] = 0;
  constexpr double kHeld = 1e12;  // penalty that holds a weight at nought
  for (int round = 0; round < 400; ++round) {
    const Eigen::ArrayXd log_odds = (x * w).array();
    Eigen::ArrayXd pull = Eigen::ArrayXd::Zero(n), curvature = Eigen::ArrayXd::Zero(n);
    for (const CostShare& prior : priors) {
      const Eigen::ArrayXd p = 1 / (1 + (-(log_odds + prior.log_odds)).exp());
      const Eigen::ArrayXd share =
          weight.array() * (y.array() * prior.of_same + (1 - y.array()) * prior.of_different);
      pull += share * (y.array() - p);
      curvature += share * p * (1 - p);
    }
    const Eigen::VectorXd gradient = x.transpose() * pull.matrix() - penalty.cwiseProduct(w);
    Eigen::MatrixXd hessian = x.transpose() * curvature.matrix().asDiagonal() * x;
    hessian.diagonal() += penalty + Eigen::VectorXd::Constant(x.cols(), 1e-9);
    Eigen::VectorXd change = hessian.ldlt().solve(gradient);
    const double largest = change.cwiseAbs().maxCoeff();
    if (largest > 2) change *= 2 / largest;  // far from the top, Newton's step overshoots
    w += change;
    if (largest >= 1e-8) continue;
    bool more = false;
    for (Eigen::Index k = 0; k < d; ++k)
      if (penalty[k + 1] < kHeld && fit.signs[static_cast<size_t>(k)] * w[k + 1] < 0)
        penalty[k + 1] = kHeld, w[k + 1] = 0, more = true;
    if (!more) break;
  }
  for (Eigen::Index k = 1; k <= d; ++k)
    if (penalty[k] >= kHeld) w[k] = 0;
  model.weights.assign(w.data(), w.data() + w.size());
  return model;
}

}  // namespace evet::train
