// Searches with known answers, and how well they went, in the terms of ISO/IEC 19795-1: rank-k identification
// rate, false-negative identification rate (FNIR) against false-positive identification rate (FPIR), failure
// to acquire, log-likelihood-ratio cost, reliability, and how right the advice was.
//
// Intervals are 95 %, by resampling individuals whole, since the searches of one animal share its luck. Where
// no error was seen the upper limit is 3/n, n the number of individuals (the rule of three).
#pragma once
#include <cstdint>
#include <limits>
#include <map>
#include <string>
#include <vector>

#include "matcher/search/llr_cost.h"
#include "matcher/search/rank.h"

namespace evet::trial {

// One capture searched. Mated: its individual is in the gallery; else it is not.
struct Search {
  std::string individual;  // whose capture it is
  bool mated = false;
  bool acquired = true;  // false: no usable photo, so nothing was searched
  int mate_rank = 0;     // 1 best; 0 not returned
  // Posterior log odds of a candidate being the animal: of the mate, and of the best candidate.
  double mate_odds = -std::numeric_limits<double>::infinity();
  double best_odds = -std::numeric_limits<double>::infinity();
  double best_probability = 0;
  Advice advice = Advice::look;
  std::map<std::string, std::string> groups;  // "site": "Alder Pool", "years apart": "0-1"
};
// One capture against one individual, for the cost of the ratios.
struct Pair {
  std::string individual;
  LlrTrial trial;
};
struct Trial {
  int gallery_individuals = 0, gallery_photos = 0;
  int not_enrolled = 0;  // individuals without a usable gallery photo
  std::vector<Search> searches;
  std::vector<Pair> pairs;
};

struct Rate {
  double value = 0, low = 0, high = 1;
  int count = 0, of = 0;
};

struct OperatingPoint {
  double allowed_fpir = 0;
  bool measurable = false;  // enough non-mated searches for such a rate: at least one over it
  double odds = 0;          // candidates at or above are returned
  Rate fnir, fpir;
};
struct DetPoint {
  double fpir = 0, fnir = 0;
};
struct ReliabilityBin {
  double stated = 0, observed = 0;  // mean probability of the best candidate, and how often it was the animal
  int of = 0;
};
struct AdviceScore {
  Rate given;  // of acquired searches
  Rate right;  // of those given; for "look" how often the best candidate was the animal
};

struct Scores {
  int mated = 0, non_mated = 0;  // acquired
  Rate failure_to_acquire;       // of all searches, each capture once
  Rate rank1, rank1_of_all;      // of mated acquired searches; of all mated, failures counting as misses
  std::vector<Rate> cmc;         // rank 1 .. 10
  std::vector<OperatingPoint> points;  // FPIR 1 % and 0.1 %
  std::vector<DetPoint> det;
  LlrCost cost;
  std::vector<ReliabilityBin> reliability;
  AdviceScore same, is_new, look;
};

struct ScoreOptions {
  std::vector<double> allowed_fpir = {0.01, 0.001};
  int resamples = 1000;
  std::uint64_t seed = 1;
};
Scores score(const Trial& trial, const ScoreOptions& options = {});

}  // namespace evet::trial
