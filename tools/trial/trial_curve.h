// The parts of a score that take resampling of their own: the error curve (FNIR against FPIR, the detection
// error trade-off), and the cost of the likelihood ratios with its interval.
#pragma once
#include "tools/trial/trial_values.h"

namespace evet::trial {

std::vector<double> sorted_impostors(const std::vector<Search>& searches);  // best odds, highest first

// The lowest threshold at which no more than `allowed` of the non-mated searches return anyone.
double threshold(const std::vector<double>& impostors, double allowed);

// Fills in det, and the intervals of the points' FNIR: the threshold is set anew in every resample of the
// individuals, so that its own uncertainty is in the interval.
void error_curve(const Trial& trial, const ScoreOptions& options, Scores& scores);

// Fills in cost and its interval; resamples by whose capture was compared.
void cost_of_ratios(const Trial& trial, const ScoreOptions& options, Scores& scores);

}  // namespace evet::trial
