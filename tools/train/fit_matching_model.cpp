#include "tools/train/fit_matching_model.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <map>
#include <random>
#include <thread>

#include "tools/train/fit_best_of.h"
#include "tools/train/fit_logistic.h"

namespace evet::train {
namespace {

constexpr size_t kCode = 8, kDescribed = 10;  // places among the measures
static_assert(kMeasureNames[kCode] == "code" && kMeasureNames[kDescribed] == "described");

// Which way each measure may count: more agreement is for, contradiction, bending and distance are against.
const std::vector<int> kMeasureSigns = {+1, +1, +1, +1, -1, -1, -1, -1, -1, 0, +1, +1};

Order order_of_years(double gallery, double query) {
  if (std::abs(gallery - query) < 1e-6) return Order::unknown;
  return gallery < query ? Order::fixed_first : Order::moving_first;
}

}  // namespace

std::vector<ComparedPair> compare_query(const std::vector<KnownPattern>& patterns, size_t query,
                                        const FitOptions& options) {
  const KnownPattern& q = patterns[query];
  Ways ways;
  for (const KnownPattern& g : patterns)
    ways = ways | ways_between(q.pattern, g.pattern, options.compare.codes);
  const PreparedQuery prepared = prepare(q.pattern, options.compare, ways);
  std::mt19937_64 rng(options.seed * 1000003 + query);
  struct Animal {
    size_t number = 0;
    std::vector<std::pair<double, size_t>> patterns;  // by code, nearest first
  };
  std::map<std::pair<std::uint64_t, std::uint32_t>, Animal> animals;
  std::map<size_t, std::vector<CodeHit>> hits;
  std::vector<ComparedPair> out;
  const auto add = [&](size_t gallery, size_t animal, bool same, double weight) {
    const KnownPattern& g = patterns[gallery];
    const std::vector<CodeHit>& hit = hits.at(gallery);
    const Order order = order_of_years(g.years, q.years);
    const Comparison c = compare(prepared, g.pattern, hit, order, options.compare);
    // Of two searched patterns each is compared with the other.
    out.push_back({query, gallery, animal, same, weight, weight * (g.searched ? 0.5 : 1), c.measures, order,
                   c.alignment, c.turned});
  };
  for (size_t gallery = 0; gallery < patterns.size(); ++gallery) {
    const KnownPattern& g = patterns[gallery];
    Animal& animal = animals[{g.world, g.individual}];
    if (gallery == query) continue;
    std::vector<CodeHit> found = best_hits(prepared.codes, g.pattern.code, options.compare.starts,
                                           ways_between(q.pattern, g.pattern, options.compare.codes));
    animal.patterns.emplace_back(found[0].distance, gallery);
    hits[gallery] = std::move(found);
  }
  std::vector<Animal> others;
  for (size_t number = 0; auto& [key, animal] : animals) {
    animal.number = number++;
    std::sort(animal.patterns.begin(), animal.patterns.end());
    if (key == std::pair(q.world, q.individual))
      for (const auto& [distance, gallery] : animal.patterns) add(gallery, animal.number, true, 1);
    else
      others.push_back(std::move(animal));
  }
  const auto align = [&](const Animal& animal, double weight) {
    for (size_t i = 0; i < animal.patterns.size() && i < static_cast<size_t>(options.photos); ++i)
      add(animal.patterns[i].second, animal.number, false, weight);
  };
  std::sort(others.begin(), others.end(),
            [](const Animal& a, const Animal& b) { return a.patterns[0] < b.patterns[0]; });
  const size_t near = std::min(others.size(), static_cast<size_t>(options.nearest));
  for (size_t i = 0; i < near; ++i) align(others[i], 1);
  std::shuffle(others.begin() + static_cast<std::ptrdiff_t>(near), others.end(), rng);
  const size_t rest = others.size() - near, sampled = std::min(rest, static_cast<size_t>(options.sampled));
  for (size_t i = near; i < near + sampled; ++i)
    align(others[i], static_cast<double>(rest) / static_cast<double>(sampled));
  return out;
}

std::vector<ComparedPair> compare_pairs(const std::vector<KnownPattern>& patterns,
                                        const FitOptions& options) {
  std::vector<std::vector<ComparedPair>> of_query(patterns.size());
  std::atomic<size_t> next{0};
  std::vector<std::thread> threads;
  for (int t = 0; t < options.threads; ++t)
    threads.emplace_back([&] {
      for (size_t i; (i = next++) < patterns.size();)
        if (patterns[i].searched) of_query[i] = compare_query(patterns, i, options);
    });
  for (std::thread& thread : threads) thread.join();
  std::vector<ComparedPair> out;
  for (const auto& some : of_query) out.insert(out.end(), some.begin(), some.end());
  return out;
}

MatchingModel fit_matching_model(const std::vector<ComparedPair>& pairs, const FitOptions& options) {
  std::vector<Example> of_pairs, of_codes;
  double same = 0, different = 0;
  for (const ComparedPair& pair : pairs) {
    of_pairs.push_back({{pair.measures.begin(), pair.measures.end()}, pair.same, pair.weight});
    of_codes.push_back({{pair.measures[kCode], pair.measures[kDescribed]}, pair.same, pair.weight});
    (pair.same ? same : different) += pair.independent;
  }
  MatchingModel model;
  model.pair = fit_logistic(of_pairs, {kMeasureSigns, options.ridge, options.priors});
  model.code_only = fit_logistic(of_codes, {{-1, +1}, options.ridge, options.priors});
  model.highest = std::log(std::max(different / 3, 1.0));
  model.lowest = -std::log(std::max(same / 3, 1.0));
  const auto photos = static_cast<size_t>(options.photos);
  model.best_of = fit_best_of(best_of_tries(pairs, model, photos), model, options.priors);
  return model;
}

}  // namespace evet::train
