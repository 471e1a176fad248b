#include "matcher/search/one_night.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "matcher/base/error.h"
#include "matcher/search/posterior.h"

namespace evet {
namespace {

// One candidate of one capture: its prior weight, and the messages that pass along it.
struct Claim {
  size_t capture = 0, at = 0;  // into the night, into its candidates
  double weight = 0;
  double to_individual = 0;  // odds that the capture takes the individual, by all but that individual
  double to_capture = 1;     // how free the individual is, by all other captures
};

}  // namespace

void OneNightOptions::check() const {
  if (!(twice_in_a_night >= 0 && twice_in_a_night <= 1))
    throw Error(ErrorKind::usage, "twice in a night", "it must lie between 0 and 1");
  if (rounds < 1) throw Error(ErrorKind::usage, "rounds", "there must be at least one");
}

void rank_together(std::vector<RankedCapture>& night, const SearchOptions& costs,
                   const OneNightOptions& options) {
  options.check();
  std::vector<std::vector<Claim>> of_capture(night.size());
  std::map<IndividualId, std::vector<std::pair<size_t, size_t>>> of_individual;
  for (size_t i = 0; i < night.size(); ++i)
    for (size_t k = 0; k < night[i].candidates.size(); ++k) {
      const Candidate& candidate = night[i].candidates[k];
      of_individual[candidate.individual].emplace_back(i, of_capture[i].size());
      of_capture[i].push_back({i, k, candidate.probability, 0, 1});
    }
  for (int round = 0; round < options.rounds; ++round) {
    double moved = 0;
    for (size_t i = 0; i < night.size(); ++i) {
      double all = night[i].new_probability;
      for (const Claim& claim : of_capture[i]) all += claim.weight * claim.to_capture;
      for (Claim& claim : of_capture[i]) {
        const double rest = std::max(all - claim.weight * claim.to_capture, 1e-300);
        claim.to_individual = claim.weight / rest;
      }
    }
    for (const auto& [individual, claims] : of_individual) {
      double all = 0;
      for (const auto& [i, k] : claims) all += of_capture[i][k].to_individual;
      for (const auto& [i, k] : claims) {
        Claim& claim = of_capture[i][k];
        const double others = std::max(all - claim.to_individual, 0.0);
        const double free = (1 + options.twice_in_a_night * others) / (1 + others);
        moved = std::max(moved, std::abs(free - claim.to_capture));
        claim.to_capture = free;
      }
    }
    if (moved < 1e-10) break;
  }
  for (size_t i = 0; i < night.size(); ++i) {
    RankedCapture& ranked = night[i];
    double sum = ranked.new_probability;
    for (const Claim& claim : of_capture[i]) sum += claim.weight * claim.to_capture;
    ranked.new_probability /= sum;
    for (const Claim& claim : of_capture[i])
      ranked.candidates[claim.at].probability = claim.weight * claim.to_capture / sum;
    std::sort(ranked.candidates.begin(), ranked.candidates.end(), [](const Candidate& a, const Candidate& b) {
      return std::tuple(-a.probability, -a.score, a.individual) <
             std::tuple(-b.probability, -b.score, b.individual);
    });
    ranked.advice = advise(ranked.candidates.empty() ? 0 : ranked.candidates[0].probability,
                           ranked.new_probability, costs);
  }
}

}  // namespace evet
