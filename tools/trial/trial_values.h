// A trial's searches, each with its known answer, and the scores that are counted from them.
#pragma once
#include <limits>
#include <map>
#include <string>
#include <vector>

#include "matcher/search/llr_cost.h"
#include "matcher/search/rank.h"
#include "tools/trial/trial_rate.h"

namespace evet::trial {

// One capture searched. Mated: its individual is in the gallery; else it is not.
struct Search {
  std::string individual;  // whose capture it is
  std::string capture{};
  bool mated = false;
  bool acquired = true;  // false: no usable photo, so nothing was searched
  int mate_rank = 0;     // 1 best; 0 not returned
  // Posterior log odds of a candidate being the animal: of the mate, and of the best candidate.
  double mate_odds = -std::numeric_limits<double>::infinity();
  double best_odds = -std::numeric_limits<double>::infinity();
  double best_probability = 0;
  double new_probability = 1;
  std::string best_individual{};
  Advice advice = Advice::look;
  std::map<std::string, std::string> groups;  // "site": "Alder Pool", "years apart": "0-1"
};
// One capture against one individual, for the cost of the ratios.
struct Pair {
  size_t individual = 0, against = 0;  // into Trial::individuals: whose capture, and who it was compared with
  LlrTrial trial;
  double pattern_llr = 0;  // see search/rank.h
};
struct Trial {
  int gallery_individuals = 0, gallery_photos = 0;
  int not_enrolled = 0;  // individuals without a usable gallery photo
  std::vector<Search> searches;
  std::vector<Pair> pairs;
  std::vector<std::string> individuals;
};

struct OperatingPoint {
  double allowed_fpir = 0;
  bool measurable = false;  // enough non-mated searches for such a rate: at least one over it
  double odds = 0;          // candidates at or above are returned
  Rate fnir, fpir;          // the interval of fnir has the threshold set anew in every resample
};
struct DetPoint {
  double fpir = 0, fnir = 0;
  double low = 0, high = 1;  // of fnir
};
struct ReliabilityBin {
  double stated = 0;  // mean probability of the best candidate
  Rate observed;      // how often it was the animal
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
  Interval cost_total;  // none of its parts: a resample is always pooled better than the sample, so theirs
                        // would lie beside it
  int same_pairs = 0, different_pairs = 0;
  // Of captures that were searched both ways, so that recaptures and newcomers are as many as the prior says.
  std::vector<ReliabilityBin> reliability;
  AdviceScore same, is_new, look;
};

struct ScoreOptions : ResampleOptions {
  std::vector<double> allowed_fpir = {0.01, 0.001};
};

}  // namespace evet::trial
