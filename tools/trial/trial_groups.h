// The same figures by site, season, observer and so on, at one threshold for all groups.
#pragma once
#include <string>
#include <vector>

#include "tools/trial/trial_score.h"

namespace evet::trial {

struct GroupScore {
  std::string value;  // "Alder Pool"
  size_t individuals = 0;
  int mated = 0, non_mated = 0;  // acquired
  Rate failure_to_acquire, rank1, fnir, fpir;
  // Fewer individuals than it takes for an error of one in ten to show in all likelihood (the rule of three).
  bool few = false;
};
struct Grouping {
  std::string by;           // "site"
  bool mated_only = false;  // tells something of searches with a mate alone, as "years apart" does
  std::vector<GroupScore> groups;
};

inline constexpr size_t kFewIndividuals = 30;

// `point`: the operating point whose threshold is used.
std::vector<Grouping> by_group(const Trial& trial, const OperatingPoint& point,
                               const ResampleOptions& options);

}  // namespace evet::trial
