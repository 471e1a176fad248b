#include "models/closed/catch_groups.h"

#include <algorithm>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>

#include "models/closed/full_likelihood.h"
#include "models/fit/tape.h"

namespace evet::models {
namespace {

constexpr int kGroups = 60;

CatchGroup alike(double share, double p, double again, std::size_t t) {
  return {share, std::vector<double>(t, p), std::vector<double>(t, again)};
}

std::vector<CatchGroup> beta_steps(double mean, double sum, std::size_t t) {
  std::vector<CatchGroup> groups;
  const double a = std::clamp(mean * sum, 1e-3, 1e6), b = std::clamp((1 - mean) * sum, 1e-3, 1e6);
  for (int i = 0; i < kGroups; ++i) {
    const double p = boost::math::ibeta_inv(a, b, (i + 0.5) / kGroups);
    groups.push_back(alike(1.0 / kGroups, p, p, t));
  }
  return groups;
}

}  // namespace

std::vector<CatchGroup> catch_groups(const FittedModel& model, int occasions) {
  const auto t = static_cast<std::size_t>(occasions);
  const Eigen::VectorXd& x = model.fit.theta;
  const std::string& name = model.name;
  if (name == "constant") return {alike(1, logistic(x[1]), logistic(x[1]), t)};
  if (name == "response") return {alike(1, logistic(x[1]), logistic(x[2]), t)};
  if (name == "mixture" || name == "response-mixture") {
    const double shift = name == "mixture" ? 0 : x[4];
    return {alike(logistic(x[1]), logistic(x[2]), logistic(x[2] + shift), t),
            alike(logistic(-x[1]), logistic(x[3]), logistic(x[3] + shift), t)};
  }
  if (name == "beta-binomial") return beta_steps(logistic(x[1]), std::exp(x[2]), t);
  if (name == "occasion" || name == "occasion-response") {
    const double shift = name == "occasion" ? 0 : x[static_cast<Eigen::Index>(t) + 1];
    CatchGroup group;
    for (Eigen::Index j = 1; j <= occasions; ++j) {
      group.p.push_back(logistic(x[j]));
      group.again.push_back(logistic(x[j] + shift));
    }
    return {group};
  }
  if (name == "occasion-mixture") {
    std::vector<CatchGroup> groups(2);
    groups[0].share = logistic(x[1]);
    groups[1].share = logistic(-x[1]);
    for (Eigen::Index j = 3; j < occasions + 3; ++j)
      for (int g = 0; g < 2; ++g)
        groups[static_cast<std::size_t>(g)].p.push_back(logistic(x[j] + (g ? std::exp(x[2]) : 0)));
    for (CatchGroup& group : groups) group.again = group.p;
    return groups;
  }
  return {};
}

const std::vector<FullModel>& full_models() {
  static const std::vector<FullModel> models = {
      {"constant", fit_constant},
      {"occasion", fit_occasion},
      {"response", fit_response},
      {"occasion-response", fit_occasion_response},
      {"mixture", fit_mixture},
      {"beta-binomial", fit_beta_binomial},
      {"occasion-mixture", fit_occasion_mixture},
      {"response-mixture", fit_response_mixture},
  };
  return models;
}

CaptureHistories draw_histories(const std::vector<CatchGroup>& groups, int animals, const Uniform& uniform) {
  std::vector<int> in_group(groups.size(), 0);
  for (int i = 0; i < animals; ++i) {
    double place = uniform();
    std::size_t g = 0;
    while (g + 1 < groups.size() && place >= groups[g].share) place -= groups[g++].share;
    ++in_group[g];
  }
  CaptureHistories all;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    const CaptureHistories part = simulate_closed({in_group[g], groups[g].p, groups[g].again}, uniform);
    all.occasions = part.occasions;
    for (std::size_t i = 0; i < part.animals.size(); ++i)
      all.animals.push_back(std::to_string(all.animals.size() + 1));
    all.caught.insert(all.caught.end(), part.caught.begin(), part.caught.end());
  }
  return all;
}

CatchExpectation expected_catches(const std::vector<CatchGroup>& groups, double n) {
  CatchExpectation expected;
  if (groups.empty()) return expected;
  const std::size_t t = groups.front().p.size();
  expected.newly.assign(t, 0);
  expected.caught.assign(t, 0);
  expected.frequencies.assign(t, 0);
  for (const CatchGroup& group : groups) {
    double unmarked = n * group.share;
    std::vector<double> marked(t + 1, 0.0);  // by captures so far
    for (std::size_t j = 0; j < t; ++j) {
      for (std::size_t c = j; c >= 1; --c) {
        const double again = marked[c] * group.again[j];
        expected.caught[j] += again;
        marked[c] -= again;
        marked[c + 1] += again;
      }
      const double newly = unmarked * group.p[j];
      expected.newly[j] += newly;
      expected.caught[j] += newly;
      unmarked -= newly;
      marked[1] += newly;
    }
    for (std::size_t c = 1; c <= t; ++c) expected.frequencies[c - 1] += marked[c];
  }
  return expected;
}

}  // namespace evet::models
