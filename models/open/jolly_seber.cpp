#include "models/open/jolly_seber.h"

#include <algorithm>
#include <cmath>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/open/messages.h"

namespace evet::models {

namespace {

double ratio(double a, double b) {
  return b != 0 ? a / b : kUndefined;
}
double root(double variance) {
  return std::isfinite(variance) && variance >= 0 ? std::sqrt(variance) : kUndefined;
}

// What the formulas are made of, by occasion: entry 0 (no marked animals yet) is a placeholder.
struct Marked {
  const MArray& array;
  std::vector<double> M, N, adjusted_M, adjusted_N;
  double released(std::size_t i) const { return array.released[static_cast<Eigen::Index>(i)]; }
  double n(std::size_t i) const { return array.caught[static_cast<Eigen::Index>(i)]; }
  // Seen before and after, not on it.
  double passed_over(std::size_t i) const {
    double z = 0;
    for (std::size_t from = 0; from < i; ++from)
      for (Eigen::Index to = static_cast<Eigen::Index>(i) + 1; to < array.occasions(); ++to)
        z += array.next(static_cast<Eigen::Index>(from), to);
    return z;
  }
};

Marked count(JollySeber& js, const MArray& array, std::size_t k) {
  Marked at{array, std::vector<double>(k, 0), std::vector<double>(k, kUndefined), std::vector<double>(k, 0),
            std::vector<double>(k, kUndefined)};
  for (std::size_t i = 0; i < k; ++i) js.m.push_back(at.n(i) - array.newly[static_cast<Eigen::Index>(i)]);
  for (std::size_t i = 0; i + 1 < k; ++i) js.r.push_back(array.next.row(static_cast<Eigen::Index>(i)).sum());
  for (std::size_t i = 1; i < k; ++i) js.alpha.push_back(ratio(js.m[i], at.n(i)));
  for (std::size_t i = 1; i + 1 < k; ++i) {
    const double z = at.passed_over(i);
    js.z.push_back(z);
    at.M[i] = js.m[i] + (z == 0 ? 0 : ratio(at.released(i) * z, js.r[i]));
    at.N[i] = ratio(at.M[i] * at.n(i), js.m[i]);
    at.adjusted_M[i] = js.m[i] + z * (at.released(i) + 1) / (js.r[i] + 1);
    at.adjusted_N[i] = at.adjusted_M[i] * (at.n(i) + 1) / (js.m[i] + 1);
    js.M.push_back(at.M[i]);
    js.N.push_back(at.N[i]);
    js.p.push_back(ratio(js.m[i], at.M[i]));
    js.adjusted_M.push_back(at.adjusted_M[i]);
    js.adjusted_N.push_back(at.adjusted_N[i]);
  }
  return at;
}

// Infinite when nothing came back.
double spread(const JollySeber& js, const Marked& at, std::size_t i) {
  return 1 / js.r[i] - 1 / at.released(i);
}

// Survival from each occasion to the next, by occasion; the errors of the numbers before it.
std::vector<double> survive(JollySeber& js, const Marked& at, std::size_t k) {
  const std::vector<double>&M = at.M, &N = at.N;
  for (std::size_t i = 1; i + 1 < k; ++i)
    js.se_N.push_back(root(N[i] * (N[i] - at.n(i)) *
                           ((M[i] - js.m[i] + at.released(i)) / M[i] * spread(js, at, i) +
                            ratio(1 - js.m[i] / at.n(i), js.m[i]))));
  std::vector<double> phi(k, kUndefined);
  for (std::size_t i = 0; i + 2 < k; ++i) {
    const double m0 = i == 0 ? 0 : js.m[i];
    phi[i] = ratio(M[i + 1], M[i] - m0 + at.released(i));
    js.phi.push_back(phi[i]);
    js.adjusted_phi.push_back(ratio(at.adjusted_M[i + 1], at.adjusted_M[i] - m0 + at.released(i)));
    const double unseen_next = M[i + 1] - js.m[i + 1];
    const double sampling =
        phi[i] * phi[i] *
        (unseen_next * (unseen_next + at.released(i + 1)) / (M[i + 1] * M[i + 1]) * spread(js, at, i + 1) +
         ratio(M[i] - m0, M[i] - m0 + at.released(i)) * (M[i] == m0 ? 0 : spread(js, at, i)));
    // With no marked animals missed at i the last term is nothing times something.
    js.se_phi_sampling.push_back(root(sampling));
    js.se_phi.push_back(root(sampling + phi[i] * phi[i] * (1 - phi[i]) / M[i + 1]));
  }
  return phi;
}

void come_in(JollySeber& js, const Marked& at, const std::vector<double>& phi, std::size_t k) {
  const std::vector<double>&M = at.M, &N = at.N;
  for (std::size_t i = 1; i + 2 < k; ++i) {
    const double births = N[i + 1] - phi[i] * (N[i] - at.n(i) + at.released(i));
    js.B.push_back(births);
    const double a_phi = js.adjusted_phi[i];
    js.adjusted_B.push_back(at.adjusted_N[i + 1] - a_phi * (at.adjusted_N[i] - at.n(i) + at.released(i)));
    const double alpha = js.m[i] / at.n(i), alpha_next = js.m[i + 1] / at.n(i + 1);
    const double unseen = M[i] - js.m[i], unseen_next = M[i + 1] - js.m[i + 1];
    const double part = phi[i] * at.released(i) * (1 - alpha) / alpha;
    js.se_B.push_back(
        root(births * births * unseen_next * (unseen_next + at.released(i + 1)) / (M[i + 1] * M[i + 1]) *
                 spread(js, at, i + 1) +
             unseen / (unseen + at.released(i)) * part * part * spread(js, at, i) +
             (N[i] - at.n(i)) * (N[i + 1] - births) * (1 - alpha) * (1 - phi[i]) / (unseen + at.released(i)) +
             N[i + 1] * (N[i + 1] - at.n(i + 1)) * (1 - alpha_next) / js.m[i + 1] +
             phi[i] * phi[i] * N[i] * (N[i] - at.n(i)) * (1 - alpha) / js.m[i]));
  }
}

}  // namespace

JollySeber jolly_seber(const MArray& array) {
  const std::size_t k = static_cast<std::size_t>(array.occasions());
  if (k < 3)
    throw InputError(messages::kItemJollySeberEstimates,
                     {messages::kOccasionsAre, {{"occasions", std::to_string(k)}}}, messages::kGiveThree);
  JollySeber js;
  const Marked at = count(js, array, k);
  const std::vector<double> phi = survive(js, at, k);
  come_in(js, at, phi, k);
  return js;
}

std::vector<Estimate> jolly_seber_estimates(const MArray& array, double level) {
  const JollySeber js = jolly_seber(array);
  std::vector<Estimate> estimates;
  const auto add = [&](Quantity quantity, std::size_t index, double value, double se, double floor,
                       bool log_scale) {
    Estimate estimate = estimate_of({quantity, static_cast<int>(index)});
    estimate.value = value;
    estimate.standard_error = se;
    if (std::isnan(value) || std::isnan(se)) {
      estimate.undefined = messages::kTooFewAround;
      estimate.intervals = {{floor, kInfinity, level, messages::kIntervalNoInformation}};
    } else {
      estimate.intervals = {log_scale ? log_normal_interval(value, se, floor, level)
                                      : normal_interval(value, se, level)};
    }
    estimates.push_back(estimate);
  };
  for (std::size_t i = 0; i < js.N.size(); ++i)
    add(Quantity::number, i + 2, js.adjusted_N[i], js.se_N[i],
        std::min(js.adjusted_N[i], array.caught[static_cast<Eigen::Index>(i) + 1]), true);
  for (std::size_t i = 0; i < js.phi.size(); ++i)
    add(Quantity::survival, i + 1, js.adjusted_phi[i], js.se_phi[i], 0, false);
  for (std::size_t i = 0; i < js.B.size(); ++i)
    add(Quantity::births, i + 2, js.adjusted_B[i], js.se_B[i], -kInfinity, false);
  Estimate& first = estimates.front();
  first.source =
      "Jolly (1965), Biometrika 52:225-247; Seber (1965), Biometrika 52:249-259; adjusted and with variances "
      "of Seber (1982)";
  first.assumptions = {messages::kCaughtAlike, messages::kMarkedSurvivedAlike, messages::kLeavingAndComingIn};
  const bool beyond =
      std::any_of(js.adjusted_phi.begin(), js.adjusted_phi.end(), [](double x) { return x > 1; }) ||
      std::any_of(js.adjusted_B.begin(), js.adjusted_B.end(), [](double x) { return x < 0; });
  if (beyond) first.warnings.push_back(messages::kReadAsOneAndNought);
  return estimates;
}

}  // namespace evet::models
