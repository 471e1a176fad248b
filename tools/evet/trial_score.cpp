#include "tools/evet/trial_score.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

namespace evet::trial {
namespace {

// Errors and trials of each individual, so that individuals can be resampled whole.
struct Tally {
  std::map<std::string, std::pair<int, int>> of_individual;  // count, of
  void add(const std::string& individual, bool counts) {
    auto& [count, of] = of_individual[individual];
    count += counts, ++of;
  }
};

Rate rate(const Tally& tally, const ScoreOptions& options) {
  Rate out;
  std::vector<std::pair<int, int>> each;
  for (const auto& [individual, counts] : tally.of_individual) {
    each.push_back(counts);
    out.count += counts.first, out.of += counts.second;
  }
  if (out.of == 0) return out;
  out.value = static_cast<double>(out.count) / out.of;
  std::mt19937_64 rng(options.seed);
  std::uniform_int_distribution<size_t> pick(0, each.size() - 1);
  std::vector<double> values;
  for (int b = 0; b < options.resamples; ++b) {
    int count = 0, of = 0;
    for (size_t i = 0; i < each.size(); ++i) {
      const auto& [c, n] = each[pick(rng)];
      count += c, of += n;
    }
    values.push_back(static_cast<double>(count) / of);
  }
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) {
    return values[static_cast<size_t>(share * static_cast<double>(values.size() - 1))];
  };
  const double three = std::min(1.0, 3.0 / static_cast<double>(each.size()));
  out.low = out.count == out.of ? 1 - three : at(0.025);
  out.high = out.count == 0 ? three : at(0.975);
  return out;
}

Rate rate(const std::vector<Search>& searches, const ScoreOptions& options,
          const std::function<bool(const Search&)>& of, const std::function<bool(const Search&)>& counts) {
  Tally tally;
  for (const Search& s : searches)
    if (of(s)) tally.add(s.individual, counts(s));
  return rate(tally, options);
}

bool mated(const Search& s) {
  return s.mated && s.acquired;
}
bool non_mated(const Search& s) {
  return !s.mated && s.acquired;
}

std::vector<double> sorted_odds(
    const std::vector<Search>& searches) {  // of non-mated searches, highest first
  std::vector<double> out;
  for (const Search& s : searches)
    if (non_mated(s)) out.push_back(s.best_odds);
  std::sort(out.rbegin(), out.rend());
  return out;
}

// The lowest threshold at which no more than `allowed` of the non-mated searches return anyone.
double threshold(const std::vector<double>& impostors, double allowed) {
  const auto n = static_cast<size_t>(allowed * static_cast<double>(impostors.size()) + 1e-9);
  if (n >= impostors.size()) return -std::numeric_limits<double>::infinity();
  return std::nextafter(impostors[n], std::numeric_limits<double>::infinity());
}

std::vector<DetPoint> det_curve(const std::vector<Search>& searches, const std::vector<double>& impostors) {
  std::vector<double> mates;
  for (const Search& s : searches)
    if (mated(s)) mates.push_back(s.mate_odds);
  std::sort(mates.begin(), mates.end());
  std::vector<DetPoint> out;
  if (mates.empty() || impostors.empty()) return out;
  for (size_t n = 0; n <= impostors.size(); ++n) {
    const double allowed = static_cast<double>(n) / static_cast<double>(impostors.size());
    const double t = threshold(impostors, allowed);
    const auto missed = std::lower_bound(mates.begin(), mates.end(), t) - mates.begin();
    const DetPoint point{allowed, static_cast<double>(missed) / static_cast<double>(mates.size())};
    if (out.empty() || out.back().fnir != point.fnir) out.push_back(point);
  }
  return out;
}

std::vector<ReliabilityBin> reliability(const std::vector<Search>& searches) {
  constexpr std::array<double, 8> kEdges = {0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99, 1.01};
  std::vector<ReliabilityBin> bins(kEdges.size());
  for (const Search& s : searches) {
    if (!s.acquired) continue;
    size_t k = 0;
    while (s.best_probability >= kEdges[k]) ++k;
    bins[k].stated += s.best_probability, bins[k].observed += s.mated && s.mate_rank == 1, ++bins[k].of;
  }
  std::erase_if(bins, [](const ReliabilityBin& b) { return b.of == 0; });
  for (ReliabilityBin& b : bins) b.stated /= b.of, b.observed /= b.of;
  return bins;
}

AdviceScore advice(const std::vector<Search>& searches, Advice which, const ScoreOptions& options) {
  const auto given = [&](const Search& s) { return s.acquired && s.advice == which; };
  return {rate(
              searches, options, [](const Search& s) { return s.acquired; }, given),
          rate(searches, options, given, [&](const Search& s) {
            return which == Advice::new_individual ? !s.mated : s.mated && s.mate_rank == 1;
          })};
}

}  // namespace

Scores score(const Trial& trial, const ScoreOptions& options) {
  const std::vector<Search>& all = trial.searches;
  Scores out;
  out.mated = static_cast<int>(std::count_if(all.begin(), all.end(), mated));
  out.non_mated = static_cast<int>(std::count_if(all.begin(), all.end(), non_mated));
  const auto is_mated = [](const Search& s) { return s.mated; };
  out.failure_to_acquire = rate(all, options, is_mated, [](const Search& s) { return !s.acquired; });
  for (int k = 1; k <= 10; ++k)
    out.cmc.push_back(
        rate(all, options, mated, [k](const Search& s) { return s.mate_rank >= 1 && s.mate_rank <= k; }));
  out.rank1 = out.cmc[0];
  out.rank1_of_all =
      rate(all, options, is_mated, [](const Search& s) { return s.acquired && s.mate_rank == 1; });
  const std::vector<double> impostors = sorted_odds(all);
  for (const double allowed : options.allowed_fpir) {
    OperatingPoint point;
    point.allowed_fpir = allowed;
    point.measurable = allowed * static_cast<double>(impostors.size()) >= 1;
    point.odds = threshold(impostors, allowed);
    point.fnir = rate(all, options, mated, [&](const Search& s) { return s.mate_odds < point.odds; });
    point.fpir = rate(all, options, non_mated, [&](const Search& s) { return s.best_odds >= point.odds; });
    out.points.push_back(point);
  }
  out.det = det_curve(all, impostors);
  std::vector<LlrTrial> trials;
  for (const Pair& pair : trial.pairs) trials.push_back(pair.trial);
  out.cost = llr_cost(std::move(trials));
  out.reliability = reliability(all);
  out.same = advice(all, Advice::same, options);
  out.is_new = advice(all, Advice::new_individual, options);
  out.look = advice(all, Advice::look, options);
  return out;
}

}  // namespace evet::trial
