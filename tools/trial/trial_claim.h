// How large a claim the data can bear, and whether the program's own claims hold on them.
#pragma once
#include <string>
#include <vector>

#include "tools/trial/trial_score.h"

namespace evet::trial {

// Plain sentences. From n animals without an error no rate under 3/n can be claimed (the rule of three;
// Hanley & Lippman-Hand 1983, JAMA 249:1743).
std::vector<std::string> claims(const Trial& trial, const Scores& scores);

// The probabilities behind the advice say how many of the advised should be wrong. `holds` is false when so
// many more are that chance alone would do it less than once in a hundred (sum of independent draws with
// those probabilities, its upper tail).
struct Promise {
  std::string advice;  // "same", "new"
  int given = 0, wrong = 0;
  double expected_wrong = 0, p_value = 1;
  bool holds = true;
};
std::vector<Promise> promises(const Trial& trial);

// Chance of at least `at_least` among independent events with these probabilities.
double upper_tail(const std::vector<double>& probabilities, int at_least);

// Searches that went worst: an animal not found first, or another found with more odds than its own mate has.
// Worth a look at the photos: perhaps a verdict is wrong, perhaps two individuals are one.
struct Suspect {
  std::string capture, individual, candidate;
  bool mated = false;
  double probability = 0;  // of the candidate
};
std::vector<Suspect> suspects(const Trial& trial, size_t most = 10);

}  // namespace evet::trial
