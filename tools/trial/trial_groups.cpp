#include "tools/trial/trial_groups.h"

#include <set>

namespace evet::trial {

std::vector<Grouping> by_group(const Trial& trial, const OperatingPoint& point,
                               const ResampleOptions& options) {
  std::map<std::string, std::set<std::string>> values;
  for (const Search& s : trial.searches)
    for (const auto& [by, value] : s.groups) values[by].insert(value);
  std::vector<Grouping> out;
  for (const auto& entry : values) {
    const std::string& by =
        entry.first;  // named, not bound: a lambda below holds it (C++20 allows, clang 14 not)
    Grouping grouping{by, by == "years apart", {}};
    for (const std::string& value : entry.second) {
      const auto here = [&](const Search& s) {
        const auto at = s.groups.find(by);
        return at != s.groups.end() && at->second == value;
      };
      const auto mated = [&](const Search& s) { return here(s) && s.mated && s.acquired; };
      const auto non_mated = [&](const Search& s) { return here(s) && !s.mated && s.acquired; };
      GroupScore group;
      group.value = value;
      std::set<std::string> individuals;
      for (const Search& s : trial.searches) {
        if (here(s)) individuals.insert(s.individual);
        group.mated += mated(s), group.non_mated += non_mated(s);
      }
      group.individuals = individuals.size();
      group.few = group.individuals < kFewIndividuals;
      group.failure_to_acquire = rate(
          trial.searches, options, [&](const Search& s) { return here(s) && !s.mated; },
          [](const Search& s) { return !s.acquired; });
      group.rank1 = rate(trial.searches, options, mated, [](const Search& s) { return s.mate_rank == 1; });
      group.fnir =
          rate(trial.searches, options, mated, [&](const Search& s) { return s.mate_odds < point.odds; });
      group.fpir = rate(trial.searches, options, non_mated,
                        [&](const Search& s) { return s.best_odds >= point.odds; });
      grouping.groups.push_back(std::move(group));
    }
    out.push_back(std::move(grouping));
  }
  return out;
}

}  // namespace evet::trial
