// Does an open model fit? The goodness of fit split into components that each speak of one assumption.
//
// Burnham, Anderson, White, Brownie & Pollock (1987), Am. Fish. Soc. Monogr. 5, part 4; Pollock, Hines &
// Nichols (1985), Biometrics 41:399-410. Pearson chi-squares without continuity correction.
#pragma once
#include <string>
#include <vector>

#include "models/open/m_array.h"

namespace evet::models {

struct ChiSquare {
  double chi_square = 0;
  double degrees_of_freedom = 0;
  double p_value() const;  // 1 when there are no degrees of freedom
};

// Two rows of counts; columns and rows of nothing are left out. Zero degrees of freedom when nothing is left
// to compare.
ChiSquare pearson(const std::vector<double>& upper, const std::vector<double>& lower);

struct Component {
  std::string name;  // "caught or missed at 3"
  std::vector<double> upper, lower;
  ChiSquare plain;          // every column that holds anything
  ChiSquare next_vs_later;  // the columns after the first taken together
  ChiSquare pooled;         // neighbouring columns taken together until each expected count is at least two
};

// Animals caught at i against those known alive but missed at i, by when they were caught next: i = 2 ... k
// - 2.
std::vector<Component> missed_components(const MArray& array);
// Animals marked at i against those marked before and caught at i, by seen again or never: i = 2 ... k - 1.
std::vector<Component> newly_marked_components(const CaptureHistories& histories);

struct FitTest {
  std::vector<Component> missed, newly_marked;
  ChiSquare total;            // of the pooled tables
  double overdispersion = 1;  // total chi-square over degrees of freedom, not below 1
};
FitTest fit_test(const CaptureHistories& histories);

// Second opinion on the overdispersion: observed deviance of the model by occasion over its mean in
// `replicates` data sets drawn from it. Not below 1.
double bootstrap_overdispersion(const MArray& array, int replicates, std::uint64_t seed);

}  // namespace evet::models
