#include "matcher/search/night_joint.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace evet {
namespace {

// Two captures bind each other through an individual when the product of their claims on it is above this. A
// claim can grow by 1 / twice when the capture's better one is taken, hence so little.
constexpr double kBinds = 3e-5;

double total(const NightModel::Capture& capture) {
  double sum = capture.is_new;
  for (const NightModel::Claim& claim : capture.claims) sum += claim.weight;
  return sum;
}

// The strongest claim on an individual, and the strongest of anybody else.
struct Wanted {
  size_t by = 0;
  double first = 0, second = 0;
  void add(size_t capture, double p) {
    if (p > first)
      second = first, first = p, by = capture;
    else
      second = std::max(second, p);
  }
  bool binds(size_t capture, double p) const { return p * (capture == by ? second : first) >= kBinds; }
};
using WantedOnes = std::map<size_t, Wanted>;

WantedOnes wanted(const NightModel& model) {
  WantedOnes out;
  for (size_t i = 0; i < model.captures.size(); ++i)
    for (const NightModel::Claim& claim : model.captures[i].claims)
      out[claim.individual].add(i, claim.weight / total(model.captures[i]));
  return out;
}

// One capture after the other takes each of its options; the weights of whole assignments are added up.
class Enumeration {
 public:
  explicit Enumeration(const NightModel& model) : model_(model), chosen_(model.captures.size()) {
    for (const NightModel::Capture& capture : model.captures)
      sums_.captures.push_back(
          {std::vector<double>(capture.claims.size()), std::vector<double>(capture.kin.size()), 0});
  }
  NightMarginals run() {
    descend(0, 1);
    for (NightMarginals::Capture& one : sums_.captures) {
      for (double& p : one.claims) p /= all_;
      for (double& p : one.kin) p /= all_;
      one.fresh /= all_;
    }
    return std::move(sums_);
  }

 private:
  struct Choice {
    bool founder = false;
    double* sum = nullptr;
  };
  void take(size_t at, double weight, double* sum, bool founder) {
    if (weight <= 0) return;
    chosen_[at] = {founder, sum};
    descend(at + 1, weight);
    chosen_[at].founder = false;
  }
  void descend(size_t at, double weight) {
    if (at == model_.captures.size()) {
      all_ += weight;
      for (const Choice& choice : chosen_) *choice.sum += weight;
      return;
    }
    const NightModel::Capture& capture = model_.captures[at];
    NightMarginals::Capture& sums = sums_.captures[at];
    for (size_t k = 0; k < capture.claims.size(); ++k) {
      int& taken = taken_[capture.claims[k].individual];
      const double penalty = taken > 0 ? model_.twice : 1;
      ++taken;
      take(at, weight * capture.claims[k].weight * penalty, &sums.claims[k], false);
      --taken;
    }
    take(at, weight * capture.is_new, &sums.fresh, true);
    for (size_t k = 0; k < capture.kin.size(); ++k)
      if (chosen_[capture.kin[k].founder].founder)
        take(at, weight * capture.is_new * capture.kin[k].ratio, &sums.kin[k], false);
  }

  const NightModel& model_;
  std::vector<Choice> chosen_;
  std::map<size_t, int> taken_;
  NightMarginals sums_;
  double all_ = 0;
};

// One group of captures, with the claims that bind nobody else in it put together.
struct Part {
  NightModel model;
  std::vector<std::vector<size_t>> claims, kin;  // of each capture: which of the whole model's they are
  std::vector<double> loose;                     // weight of the claims left out
};

Part part_of(const NightModel& whole, const WantedOnes& want, const std::vector<size_t>& members) {
  std::map<size_t, size_t> place;
  size_t nobody = want.empty() ? 0 : want.rbegin()->first + 1;  // a number that no individual has
  for (const size_t i : members) place.emplace(i, place.size());
  Part part;
  part.model.twice = whole.twice;
  for (const size_t i : members) {
    const NightModel::Capture& from = whole.captures[i];
    NightModel::Capture to;
    to.is_new = from.is_new;
    part.claims.emplace_back(), part.kin.emplace_back(), part.loose.push_back(0);
    for (size_t k = 0; k < from.claims.size(); ++k) {
      const NightModel::Claim& claim = from.claims[k];
      if (want.at(claim.individual).binds(i, claim.weight / total(from))) {
        to.claims.push_back(claim);
        part.claims.back().push_back(k);
      } else {
        part.loose.back() += claim.weight;
      }
    }
    to.claims.push_back({nobody++, part.loose.back()});
    for (size_t k = 0; k < from.kin.size(); ++k)
      if (const auto founder = place.find(from.kin[k].founder); founder != place.end()) {
        to.kin.push_back({founder->second, from.kin[k].ratio});
        part.kin.back().push_back(k);
      }
    part.model.captures.push_back(std::move(to));
  }
  return part;
}

double assignments(const NightModel& model) {
  double n = 1;
  for (const NightModel::Capture& capture : model.captures)
    n *= static_cast<double>(capture.claims.size() + 1 + capture.kin.size());
  return n;
}

}  // namespace

double NightMarginals::Capture::is_new() const {
  return std::accumulate(kin.begin(), kin.end(), fresh);
}

NightMarginals marginals_by_enumeration(const NightModel& model) {
  return Enumeration(model).run();
}

std::vector<std::vector<size_t>> competing(const NightModel& model) {
  const size_t n = model.captures.size();
  std::vector<size_t> root(n);
  std::iota(root.begin(), root.end(), size_t{0});
  const auto find = [&](size_t i) {
    while (root[i] != i) i = root[i] = root[root[i]];
    return i;
  };
  const auto join = [&](size_t a, size_t b) {
    a = find(a), b = find(b);
    root[std::max(a, b)] = std::min(a, b);
  };
  const WantedOnes want = wanted(model);
  for (size_t i = 0; i < n; ++i) {
    const NightModel::Capture& capture = model.captures[i];
    const double all = total(capture);
    for (const NightModel::Claim& claim : capture.claims)
      if (const Wanted& one = want.at(claim.individual); one.binds(i, claim.weight / all)) join(i, one.by);
    for (const NightModel::Kin& kin : capture.kin) {
      const NightModel::Capture& founder = model.captures[kin.founder];
      if (kin.ratio * capture.is_new / all * founder.is_new / total(founder) >= kBinds) join(i, kin.founder);
    }
  }
  std::map<size_t, std::vector<size_t>> groups;
  for (size_t i = 0; i < n; ++i) groups[find(i)].push_back(i);
  std::vector<std::vector<size_t>> out;
  out.reserve(groups.size());
  for (auto& [first, members] : groups) out.push_back(std::move(members));
  return out;
}

NightMarginals marginals(const NightModel& model, size_t states) {
  NightMarginals out;
  for (const NightModel::Capture& capture : model.captures)
    out.captures.push_back(
        {std::vector<double>(capture.claims.size()), std::vector<double>(capture.kin.size()), 0});
  const WantedOnes want = wanted(model);
  for (const std::vector<size_t>& members : competing(model)) {
    const Part part = part_of(model, want, members);
    const NightMarginals found = assignments(part.model) <= static_cast<double>(states)
                                     ? marginals_by_enumeration(part.model)
                                     : marginals_by_passing(part.model);
    for (size_t m = 0; m < members.size(); ++m) {
      const NightModel::Capture& from = model.captures[members[m]];
      NightMarginals::Capture& to = out.captures[members[m]];
      const NightMarginals::Capture& one = found.captures[m];
      // What was put together keeps its own shares.
      const double loose = part.loose[m] > 0 ? one.claims.back() / part.loose[m] : 0;
      for (size_t k = 0; k < from.claims.size(); ++k) to.claims[k] = from.claims[k].weight * loose;
      for (size_t k = 0; k < part.claims[m].size(); ++k) to.claims[part.claims[m][k]] = one.claims[k];
      for (size_t k = 0; k < part.kin[m].size(); ++k) to.kin[part.kin[m][k]] = one.kin[k];
      to.fresh = one.fresh;
    }
  }
  return out;
}

}  // namespace evet
