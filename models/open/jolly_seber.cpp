#include "models/open/jolly_seber.h"

#include <algorithm>
#include <cmath>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/open/messages.h"

namespace evet::models {

JollySeber jolly_seber(const MArray& array) {
  const std::size_t k = static_cast<std::size_t>(array.occasions());
  if (k < 3)
    throw InputError("Jolly-Seber estimates", {messages::kOccasionsAre, {{"occasions", std::to_string(k)}}},
                     messages::kGiveThree);
  JollySeber js;
  const auto released = [&](std::size_t i) { return array.released[static_cast<Eigen::Index>(i)]; };
  const auto n = [&](std::size_t i) { return array.caught[static_cast<Eigen::Index>(i)]; };
  const auto ratio = [](double a, double b) { return b != 0 ? a / b : kUndefined; };
  for (std::size_t i = 0; i < k; ++i) js.m.push_back(n(i) - array.newly[static_cast<Eigen::Index>(i)]);
  for (std::size_t i = 0; i + 1 < k; ++i) js.r.push_back(array.next.row(static_cast<Eigen::Index>(i)).sum());
  for (std::size_t i = 1; i < k; ++i) js.alpha.push_back(ratio(js.m[i], n(i)));
  // By occasion, entry 0 (no marked animals yet) a placeholder.
  std::vector<double> M(k, 0), N(k, kUndefined), aM(k, 0), aN(k, kUndefined);
  for (std::size_t i = 1; i + 1 < k; ++i) {
    double z = 0;
    for (std::size_t from = 0; from < i; ++from)
      for (std::size_t to = i + 1; to < k; ++to)
        z += array.next(static_cast<Eigen::Index>(from), static_cast<Eigen::Index>(to));
    js.z.push_back(z);
    M[i] = js.m[i] + (z == 0 ? 0 : ratio(released(i) * z, js.r[i]));
    N[i] = ratio(M[i] * n(i), js.m[i]);
    aM[i] = js.m[i] + z * (released(i) + 1) / (js.r[i] + 1);
    aN[i] = aM[i] * (n(i) + 1) / (js.m[i] + 1);
    js.M.push_back(M[i]);
    js.N.push_back(N[i]);
    js.p.push_back(ratio(js.m[i], M[i]));
    js.adjusted_M.push_back(aM[i]);
    js.adjusted_N.push_back(aN[i]);
  }
  const auto spread = [&](std::size_t i) {
    return 1 / js.r[i] - 1 / released(i);
  };  // infinite when nothing came back
  const auto root = [](double variance) {
    return std::isfinite(variance) && variance >= 0 ? std::sqrt(variance) : kUndefined;
  };
  for (std::size_t i = 1; i + 1 < k; ++i)
    js.se_N.push_back(
        root(N[i] * (N[i] - n(i)) *
             ((M[i] - js.m[i] + released(i)) / M[i] * spread(i) + ratio(1 - js.m[i] / n(i), js.m[i]))));
  std::vector<double> phi(k, kUndefined);
  for (std::size_t i = 0; i + 2 < k; ++i) {
    const double m0 = i == 0 ? 0 : js.m[i];
    phi[i] = ratio(M[i + 1], M[i] - m0 + released(i));
    js.phi.push_back(phi[i]);
    js.adjusted_phi.push_back(ratio(aM[i + 1], aM[i] - m0 + released(i)));
    const double unseen_next = M[i + 1] - js.m[i + 1];
    const double sampling =
        phi[i] * phi[i] *
        (unseen_next * (unseen_next + released(i + 1)) / (M[i + 1] * M[i + 1]) * spread(i + 1) +
         ratio(M[i] - m0, M[i] - m0 + released(i)) * (M[i] == m0 ? 0 : spread(i)));
    // With no marked animals missed at i the last term is nothing times something.
    js.se_phi_sampling.push_back(root(sampling));
    js.se_phi.push_back(root(sampling + phi[i] * phi[i] * (1 - phi[i]) / M[i + 1]));
  }
  for (std::size_t i = 1; i + 2 < k; ++i) {
    const double births = N[i + 1] - phi[i] * (N[i] - n(i) + released(i));
    js.B.push_back(births);
    const double a_phi = js.adjusted_phi[i];
    js.adjusted_B.push_back(aN[i + 1] - a_phi * (aN[i] - n(i) + released(i)));
    const double alpha = js.m[i] / n(i), alpha_next = js.m[i + 1] / n(i + 1);
    const double unseen = M[i] - js.m[i], unseen_next = M[i + 1] - js.m[i + 1];
    const double part = phi[i] * released(i) * (1 - alpha) / alpha;
    js.se_B.push_back(
        root(births * births * unseen_next * (unseen_next + released(i + 1)) / (M[i + 1] * M[i + 1]) *
                 spread(i + 1) +
             unseen / (unseen + released(i)) * part * part * spread(i) +
             (N[i] - n(i)) * (N[i + 1] - births) * (1 - alpha) * (1 - phi[i]) / (unseen + released(i)) +
             N[i + 1] * (N[i + 1] - n(i + 1)) * (1 - alpha_next) / js.m[i + 1] +
             phi[i] * phi[i] * N[i] * (N[i] - n(i)) * (1 - alpha) / js.m[i]));
  }
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
