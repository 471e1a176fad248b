#include "tools/train/fit_best_of.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <map>

#include "tools/train/cost_shares.h"

namespace evet::train {
namespace {

constexpr size_t kMostPhotos = 12;  // of an animal that every choice is looked at of

struct Tried {
  std::vector<double> llrs;
  double weight = 0;  // sum over them
  bool same = false;
};

void add_choices(std::vector<BestOf>& out, const Tried& tried, size_t most) {
  const size_t n = std::min(tried.llrs.size(), kMostPhotos);
  std::vector<double> choices(most + 1, 0);
  for (unsigned chosen = 1; chosen < 1U << n; ++chosen)
    if (const auto k = static_cast<size_t>(std::popcount(chosen)); k <= most) ++choices[k];
  for (unsigned chosen = 1; chosen < 1U << n; ++chosen) {
    const auto k = static_cast<size_t>(std::popcount(chosen));
    if (k > most) continue;
    BestOf best{-1e9, k, tried.same, tried.weight / static_cast<double>(tried.llrs.size()) / choices[k]};
    for (size_t i = 0; i < n; ++i)
      if (chosen >> i & 1U) best.llr = std::max(best.llr, tried.llrs[i]);
    out.push_back(best);
  }
}

}  // namespace

std::vector<BestOf> best_of_tries(const std::vector<ComparedPair>& pairs, const MatchingModel& model,
                                  std::size_t most) {
  std::map<std::pair<size_t, size_t>, Tried> of_animal;  // query and animal
  for (const ComparedPair& pair : pairs) {
    Tried& tried = of_animal[{pair.query, pair.animal}];
    tried.llrs.push_back(model.llr(pair.measures));
    tried.weight += pair.weight;
    tried.same = pair.same;
  }
  std::vector<BestOf> out;
  for (const auto& [of, tried] : of_animal) add_choices(out, tried, most);
  return out;
}

BestOfTries fit_best_of(const std::vector<BestOf>& examples, const MatchingModel& caps,
                        const std::vector<double>& priors) {
  const std::vector<CostShare> shares = cost_shares(priors);
  std::map<size_t, std::array<double, 2>> whole;  // by tries; different, same
  for (const BestOf& e : examples)
    if (e.tries > 1) whole[e.tries][e.same] += e.weight;
  std::erase_if(whole, [](const auto& of) { return of.second[0] <= 0 || of.second[1] <= 0; });
  if (whole.empty()) return {};
  const auto cost = [&](const BestOfTries& at) {
    double sum = 0;
    for (const BestOf& e : examples) {
      const auto of = whole.find(e.tries);
      if (of == whole.end()) continue;
      const double llr = at(e.llr, e.tries, caps.lowest, caps.highest);
      for (const CostShare& share : shares) {
        const double against = e.same ? -(llr + share.log_odds) : llr + share.log_odds;
        sum += e.weight / of->second[e.same] * (e.same ? share.of_same : share.of_different) *
               (std::max(against, 0.0) + std::log1p(std::exp(-std::abs(against))));
      }
    }
    return sum;
  };
  BestOfTries best{0, 1, whole.rbegin()->first};
  double least = cost(best);
  // The caps leave it without slopes far out, so nothing but the cost itself is asked.
  for (double step = 1; step > 1e-3; step /= 2)
    for (bool moved = true; moved;) {
      moved = false;
      for (const auto& [scale, shift] : {std::pair{step, 0.0},
                                         {-step, 0.0},
                                         {0.0, step},
                                         {0.0, -step},
                                         {step, 4 * step},
                                         {-step, -4 * step}}) {
        const BestOfTries next{best.scale + scale, best.shift + shift, best.most};
        if (next.scale < 0) continue;
        if (const double there = cost(next); there < least) best = next, least = there, moved = true;
      }
    }
  return best;
}

}  // namespace evet::train
