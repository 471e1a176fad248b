#include "matcher/belly/belly_gate.h"

#include <algorithm>
#include <cmath>

namespace evet {
namespace {

constexpr double kFirst = 0.238, kSecond = 0.589, kSmall = -0.855, kConstant = -5.55;

// Beyond one in ten thousand the network's odds mean nothing.
double log_odds(double p) {
  p = std::clamp(p, 1e-4, 1 - 1e-4);
  return std::log(p / (1 - p));
}

}  // namespace

double p_large_belly(const GateFacts& facts) {
  const double odds = kFirst * log_odds(facts.first_look) + kSecond * log_odds(facts.second_look) +
                      kSmall * log_odds(facts.p_small_kind) + kConstant;
  return 1 / (1 + std::exp(-odds));
}

}  // namespace evet
