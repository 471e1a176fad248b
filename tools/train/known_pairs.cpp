#include "tools/train/known_pairs.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "matcher/base/parallel.h"

namespace evet::train {
namespace {

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
  for_each_item(patterns.size(), options.threads, [&](size_t i) {
    if (patterns[i].searched) of_query[i] = compare_query(patterns, i, options);
  });
  std::vector<ComparedPair> out;
  for (const auto& some : of_query) out.insert(out.end(), some.begin(), some.end());
  return out;
}

}  // namespace evet::train
