// Closed-form estimates of an open population: numbers, survival, births by occasion.
//
// Jolly (1965), Biometrika 52:225-247; Seber (1965), Biometrika 52:249-259; variances and the forms
// adjusted for small samples: Seber (1982), The Estimation of Animal Abundance, 2nd ed., ch. 5. Losses on
// capture are allowed.
#pragma once
#include <vector>

#include "models/base/estimate_value.h"
#include "models/open/m_array.h"

namespace evet::models {

// Vectors run over the occasions for which the figure exists, k occasions in all, counted from 1:
//   m (1..k), r (1..k-1), z (2..k-1), alpha (2..k), M N p (2..k-1), phi (1..k-2), B (2..k-2).
// An entry is undefined (not-a-number) where it would divide by nothing.
struct JollySeber {
  std::vector<double> m, r, z, alpha, M, N, phi, p, B;
  std::vector<double> se_N, se_phi_sampling, se_phi,
      se_B;  // se_phi with the binomial spread of survival itself
  std::vector<double> adjusted_M, adjusted_N, adjusted_phi, adjusted_B;
};

JollySeber jolly_seber(const MArray& array);
// The adjusted estimates with intervals: "N 2", ..., "survival 1", ..., "births 2", ...
std::vector<Estimate> jolly_seber_estimates(const MArray& array, double level = 0.95);

}  // namespace evet::models
