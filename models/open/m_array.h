// What the open models need of the histories: releases and next recaptures, whatever the number of animals.
#pragma once
#include <Eigen/Core>
#include <vector>

#include "models/capture_histories.h"
#include "models/fit/predictor.h"

namespace evet::models {

// Occasions are counted from 0 here. next(i, j) = animals released at i and next caught at j > i.
struct MArray {
  Eigen::VectorXd released;  // R_i, i = 0 ... k-2: caught at i and let go again
  Eigen::MatrixXd next;      // (k-1) x k, only j > i used
  Eigen::VectorXd caught;    // n_i, k entries
  Eigen::VectorXd newly;     // u_i, k entries
  int occasions() const { return static_cast<int>(caught.size()); }
  Eigen::VectorXd never_again() const { return released - next.rowwise().sum(); }
};

// Needs at least two occasions.
MArray m_array(const CaptureHistories& histories);
// One for each unit of animals.
std::vector<MArray> m_arrays(const CaptureHistories& histories, const Units& units);
// Releases of animals caught for the first time, and of all others, for each unit.
struct SplitReleases {
  MArray first, again;
};
std::vector<SplitReleases> split_releases(const CaptureHistories& histories, const Units& units);
// From published tables: releases R_1 ... R_{k-1}, (k-1) x (k-1) next recaptures, first captures u_1 ... u_k.
MArray m_array(const std::vector<double>& released, const std::vector<std::vector<double>>& next,
               const std::vector<double>& newly);

}  // namespace evet::models
