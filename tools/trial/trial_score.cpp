#include "tools/trial/trial_score.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "tools/trial/trial_curve.h"

namespace evet::trial {
namespace {

bool mated(const Search& s) {
  return s.mated && s.acquired;
}
bool non_mated(const Search& s) {
  return !s.mated && s.acquired;
}

std::vector<ReliabilityBin> reliability(const std::vector<Search>& searches, const ResampleOptions& options) {
  constexpr std::array<double, 9> kEdges = {0, 0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99, 1.01};
  std::vector<ReliabilityBin> bins;
  for (size_t k = 0; k + 1 < kEdges.size(); ++k) {
    const auto here = [&](const Search& s) {
      return s.acquired && s.best_probability >= kEdges[k] && s.best_probability < kEdges[k + 1];
    };
    ReliabilityBin bin;
    bin.observed = rate(searches, options, here, [](const Search& s) { return s.mated && s.mate_rank == 1; });
    if (bin.observed.of == 0) continue;
    for (const Search& s : searches)
      if (here(s)) bin.stated += s.best_probability / bin.observed.of;
    bins.push_back(bin);
  }
  return bins;
}

AdviceScore advice(const std::vector<Search>& searches, Advice which, const ResampleOptions& options) {
  const auto given = [&](const Search& s) { return s.acquired && s.advice == which; };
  return {rate(
              searches, options, [](const Search& s) { return s.acquired; }, given),
          rate(searches, options, given, [&](const Search& s) {
            return which == Advice::new_individual ? !s.mated : s.mated && s.mate_rank == 1;
          })};
}

}  // namespace

Rate rate(const std::vector<Search>& searches, const ResampleOptions& options,
          const std::function<bool(const Search&)>& of, const std::function<bool(const Search&)>& counts) {
  std::map<std::string, std::pair<int, int>> of_individual;
  for (const Search& s : searches)
    if (of(s)) {
      auto& [count, all] = of_individual[s.individual];
      count += counts(s), ++all;
    }
  Tally tally;
  for (const auto& [individual, counted] : of_individual) tally.push_back(counted);
  return rate(tally, options);
}

std::vector<bool> searched_both_ways(const Trial& trial) {
  std::set<std::pair<std::string, std::string>> with_mate;
  for (const Search& s : trial.searches)
    if (s.mated) with_mate.emplace(s.individual, s.capture);
  std::vector<bool> out;
  for (const Search& s : trial.searches) out.push_back(with_mate.contains({s.individual, s.capture}));
  return out;
}

Scores score(const Trial& trial, const ScoreOptions& options) {
  const std::vector<Search>& all = trial.searches;
  Scores out;
  out.mated = static_cast<int>(std::count_if(all.begin(), all.end(), mated));
  out.non_mated = static_cast<int>(std::count_if(all.begin(), all.end(), non_mated));
  const auto is_mated = [](const Search& s) { return s.mated; };
  // Every capture has one search without its mate.
  out.failure_to_acquire = rate(
      all, options, [](const Search& s) { return !s.mated; }, [](const Search& s) { return !s.acquired; });
  for (int k = 1; k <= 10; ++k)
    out.cmc.push_back(
        rate(all, options, mated, [k](const Search& s) { return s.mate_rank >= 1 && s.mate_rank <= k; }));
  out.rank1 = out.cmc[0];
  out.rank1_of_all =
      rate(all, options, is_mated, [](const Search& s) { return s.acquired && s.mate_rank == 1; });
  const std::vector<double> impostors = sorted_impostors(all);
  for (const double allowed : options.allowed_fpir) {
    OperatingPoint point;
    point.allowed_fpir = allowed;
    point.measurable = allowed * static_cast<double>(impostors.size()) >= 1;
    point.odds = threshold(impostors, allowed);
    point.fnir = rate(all, options, mated, [&](const Search& s) { return s.mate_odds < point.odds; });
    point.fpir = rate(all, options, non_mated, [&](const Search& s) { return s.best_odds >= point.odds; });
    out.points.push_back(point);
  }
  error_curve(trial, options, out);
  cost_of_ratios(trial, options, out);
  const std::vector<bool> counts = searched_both_ways(trial);
  std::vector<Search> both;
  for (size_t i = 0; i < all.size(); ++i)
    if (counts[i]) both.push_back(all[i]);
  out.reliability = reliability(both, options);
  out.same = advice(both, Advice::same, options);
  out.is_new = advice(both, Advice::new_individual, options);
  out.look = advice(both, Advice::look, options);
  return out;
}

}  // namespace evet::trial
