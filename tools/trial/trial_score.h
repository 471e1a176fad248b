// Searches with known answers, and how well they went, in the terms of ISO/IEC 19795-1: rank-k identification
// rate, false-negative identification rate (FNIR) against false-positive identification rate (FPIR), failure
// to acquire, log-likelihood-ratio cost, reliability, and how right the advice was.
// Intervals: see trial_rate.h.
#pragma once
#include <functional>
#include <vector>

#include "tools/trial/trial_values.h"

namespace evet::trial {

// Which searches count towards reliability and advice.
std::vector<bool> searched_both_ways(const Trial& trial);
// Share of the searches that are `of` which also `counts`.
Rate rate(const std::vector<Search>& searches, const ResampleOptions& options,
          const std::function<bool(const Search&)>& of, const std::function<bool(const Search&)>& counts);
Scores score(const Trial& trial, const ScoreOptions& options = {});

}  // namespace evet::trial
