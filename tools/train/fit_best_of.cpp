#include "tools/train/fit_best_of.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <map>
#include <numbers>

#include "tools/train/cost_shares.h"

namespace evet::train {
namespace {

constexpr size_t kMostPhotos = 12;  // of one animal; of more, the choices would be too many

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

// Weight of different and of same, by number of tries, where there is more than one try and there are both.
using Wholes = std::map<size_t, std::array<double, 2>>;
Wholes wholes(const std::vector<BestOf>& examples) {
  Wholes out;
  for (const BestOf& e : examples)
    if (e.tries > 1) out[e.tries][e.same] += e.weight;
  std::erase_if(out, [](const auto& of) { return of.second[0] <= 0 || of.second[1] <= 0; });
  return out;
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

double best_of_cost(const std::vector<BestOf>& examples, const BestOfTries& at, const MatchingModel& caps,
                    const std::vector<double>& priors) {
  const std::vector<CostShare> shares = cost_shares(priors);
  const Wholes whole = wholes(examples);
  double sum = 0;
  for (const BestOf& e : examples) {
    const auto of = whole.find(e.tries);
    if (of == whole.end()) continue;
    const double llr = at(e.llr, e.tries, caps.lowest, caps.highest);
    for (const CostShare& share : shares) {
      const double against = e.same ? -(llr + share.log_odds) : llr + share.log_odds;
      const double bits =
          (std::max(against, 0.0) + std::log1p(std::exp(-std::abs(against)))) / std::numbers::ln2;
      sum += e.weight / of->second[e.same] * (e.same ? share.of_same : share.of_different) * bits;
    }
  }
  return whole.empty() ? 0 : sum / static_cast<double>(whole.size());
}

BestOfTries fit_best_of(const std::vector<BestOf>& examples, const MatchingModel& caps,
                        const std::vector<double>& priors) {
  const Wholes whole = wholes(examples);
  if (whole.empty()) return {};
  BestOfTries best{0, 1, whole.rbegin()->first};
  double least = best_of_cost(examples, best, caps, priors);
  // The caps leave it without slopes far out, so nothing but the cost itself is asked; the last two
  // directions run along its valley, where more of the one number makes up for more of the other.
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
        if (const double cost = best_of_cost(examples, next, caps, priors); cost < least)
          best = next, least = cost, moved = true;
      }
    }
  return best;
}

}  // namespace evet::train
