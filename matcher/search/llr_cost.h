// How good a set of likelihood ratios is, in bits a trial: 0 perfect, 1 as good as none.
//
// The log-likelihood-ratio cost of Brümmer & du Preez 2006 (Computer Speech and Language 20:230), same and
// different trials weighing alike, and the least that any monotone recalibration could reach (found by
// pool-adjacent-violators): the difference is what bad calibration costs.
#pragma once
#include <vector>

namespace evet {

struct LlrTrial {
  double llr = 0;  // natural log, same against different
  bool same = false;
  double weight = 1;
};

struct LlrCost {
  double total = 0;
  double discrimination = 0;  // the least
  double calibration() const { return total - discrimination; }
};

// What one trial costs, in bits: the mean of it over the trials of each kind, halved and added, is the total.
double trial_cost(const LlrTrial& trial);

// Needs trials of both kinds; all zero without.
LlrCost llr_cost(std::vector<LlrTrial> trials);

}  // namespace evet
