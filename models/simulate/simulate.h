// Capture histories drawn from a known truth, for tests, bootstrap and survey planning.
//
// The order of the draws is part of the contract: with PortableRandom a data set can be drawn again in any
// language. Animals never caught are left out. `Uniform` gives numbers in (0, 1) and is called as uniform().
#pragma once
#include <functional>
#include <vector>

#include "models/capture_histories.h"

namespace evet::models {

using Uniform = std::function<double()>;

// For animal 1 ... N, for occasion 1 ... t: one draw, caught if below p_j before its first capture,
// below c_j after. `again` empty: no response to capture. `catchability` empty, or for each animal a
// shift on the logit scale.
struct ClosedTruth {
  int animals = 0;
  std::vector<double> p;
  std::vector<double> again = {};
  std::vector<double> catchability = {};
};
CaptureHistories simulate_closed(const ClosedTruth& truth, const Uniform& uniform);

// Animals in order of entry (entrants[j] enter before occasion j). For each occasion from entry on: if it is
// not the entry occasion a draw, dies if not below survival; then a draw, caught if below p.
struct OpenTruth {
  std::vector<int> entrants;
  std::vector<double> survival;  // k - 1
  std::vector<double> p;         // k
};
CaptureHistories simulate_open(const OpenTruth& truth, const Uniform& uniform);

// As above by primary period, then a draw: absent if below `leaving` (present before, or entering) or
// `staying_away` (absent before); if present one draw for each secondary occasion, caught if below p.
struct RobustTruth {
  std::vector<int> entrants;  // by period
  int secondary = 0;
  double survival = 0, leaving = 0, staying_away = 0, p = 0;
};
CaptureHistories simulate_robust(const RobustTruth& truth, const Uniform& uniform);

// Releases of newly marked animals: marked[i] unmarked animals are let go at occasion i, then live and are
// caught as in simulate_open; every released animal starts its history with a capture.
CaptureHistories simulate_releases(const std::vector<int>& marked, const std::vector<double>& survival,
                                   const std::vector<double>& p, const Uniform& uniform);

}  // namespace evet::models
