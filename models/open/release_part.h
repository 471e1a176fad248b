// The survival model given release as one part of a larger likelihood, for double and for Var.
#pragma once
#include <vector>

#include "models/fit/tape.h"
#include "models/open/survival.h"

namespace evet::models {

inline double release_part(const MArray& array, const std::vector<double>& survival_eta,
                           const std::vector<double>& recapture_eta) {
  const auto n = static_cast<Eigen::Index>(survival_eta.size());
  return release_log_likelihood(array, Eigen::Map<const Eigen::VectorXd>(survival_eta.data(), n),
                                Eigen::Map<const Eigen::VectorXd>(recapture_eta.data(), n), nullptr, nullptr);
}

inline Var release_part(const MArray& array, const std::vector<Var>& survival_eta,
                        const std::vector<Var>& recapture_eta) {
  const auto n = static_cast<Eigen::Index>(survival_eta.size());
  Eigen::VectorXd s(n), r(n), s_slope, r_slope;
  for (Eigen::Index i = 0; i < n; ++i) {
    s[i] = survival_eta[static_cast<std::size_t>(i)].value;
    r[i] = recapture_eta[static_cast<std::size_t>(i)].value;
  }
  const double value = release_log_likelihood(array, s, r, &s_slope, &r_slope);
  const Var part = add_with_slopes(Var(0.0), value, survival_eta, s_slope.data());
  return add_with_slopes(part, 0, recapture_eta, r_slope.data());
}

}  // namespace evet::models
