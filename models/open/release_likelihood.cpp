// ln Pr(next capture | release) and its slopes in one pass over the release table, by running sums.
#include <cmath>

#include "models/fit/tape.h"
#include "models/open/survival.h"

namespace evet::models {

using Eigen::Index;
using Eigen::VectorXd;

double release_log_likelihood(const MArray& array, const VectorXd& survival_eta,
                              const VectorXd& recapture_eta, VectorXd* survival_slope,
                              VectorXd* recapture_slope) {
  const Index n = survival_eta.size();  // intervals; interval i leads from occasion i to i + 1
  VectorXd log_phi(n), log_p(n), log_q(n), phi(n), p(n);
  VectorXd through(n + 1);  // sum of ln phi + ln q over the intervals before
  through[0] = 0;
  for (Index i = 0; i < n; ++i) {
    log_phi[i] = log_logistic(survival_eta[i]);
    log_p[i] = log_logistic(recapture_eta[i]);
    log_q[i] = log_logistic(-recapture_eta[i]);
    phi[i] = std::exp(log_phi[i]);
    p[i] = std::exp(log_p[i]);
    through[i + 1] = through[i] + log_phi[i] + log_q[i];
  }
  // Never seen again after i: chi_i = 1 - phi_i (1 - q_i chi_{i+1}).
  VectorXd chi(n + 1);
  chi[n] = 1;
  for (Index i = n; i-- > 0;) chi[i] = (1 - phi[i]) + phi[i] * (1 - p[i]) * chi[i + 1];

  const VectorXd never = array.never_again();
  double sum = 0;
  // alive_and_missed[i]: chances that an animal was seen again later than i + 1 though it was let go at or
  // before i.
  VectorXd passed = VectorXd::Zero(n + 1), ends = VectorXd::Zero(n);
  for (Index i = 0; i < n; ++i) {
    if (array.released[i] == 0) continue;
    if (never[i] > 0) sum += never[i] * std::log(chi[i]);
    for (Index j = i + 1; j <= n; ++j) {
      const double m = array.next(i, j);
      if (m == 0) continue;
      sum += m * (through[j - 1] - through[i] + log_phi[j - 1] + log_p[j - 1]);
      ends[j - 1] += m;  // recaptured at the end of interval j - 1
      passed[i] += m;    // passes intervals i ... j - 2 unseen
      passed[j - 1] -= m;
    }
  }
  if (!survival_slope) return sum;

  *survival_slope = VectorXd::Zero(n);
  *recapture_slope = VectorXd::Zero(n);
  double through_now = 0;
  VectorXd chi_slope = VectorXd::Zero(n + 1);  // d sum / d chi_i
  for (Index i = 0; i < n; ++i) {
    through_now += passed[i];
    (*survival_slope)[i] += (ends[i] + through_now) * (1 - phi[i]);
    (*recapture_slope)[i] += ends[i] * (1 - p[i]) - through_now * p[i];
    if (never[i] > 0) chi_slope[i] += never[i] / chi[i];
    if (chi_slope[i] == 0) continue;
    (*survival_slope)[i] += chi_slope[i] * (-1 + (1 - p[i]) * chi[i + 1]) * phi[i] * (1 - phi[i]);
    (*recapture_slope)[i] += chi_slope[i] * (-phi[i] * chi[i + 1]) * p[i] * (1 - p[i]);
    chi_slope[i + 1] += chi_slope[i] * phi[i] * (1 - p[i]);
  }
  return sum;
}

Eigen::MatrixXd release_cells(const std::vector<double>& survival, const std::vector<double>& recapture) {
  const auto n = static_cast<Index>(survival.size());
  Eigen::MatrixXd cells = Eigen::MatrixXd::Zero(n, n + 1);
  for (Index i = 0; i < n; ++i) {
    double there = 1;
    for (Index j = i; j < n; ++j) {
      const auto at = static_cast<std::size_t>(j);
      there *= survival[at];
      cells(i, j + 1) = there * recapture[at];
      there *= 1 - recapture[at];
    }
  }
  return cells;
}

double saturated_log_likelihood(const MArray& array) {
  const VectorXd never = array.never_again();
  double sum = 0;
  const auto add = [&](double m, double released) {
    if (m > 0) sum += m * std::log(m / released);
  };
  for (Index i = 0; i < array.released.size(); ++i) {
    add(never[i], array.released[i]);
    for (Index j = i + 1; j < array.next.cols(); ++j) add(array.next(i, j), array.released[i]);
  }
  return sum;
}

}  // namespace evet::models
