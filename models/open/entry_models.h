// Open models that also speak of animals coming in: the super-population and the growth rate.
//
// Both join the chance of first captures to the survival model given release. Constants (ln u_i!) are left
// out.
#pragma once
#include "models/fit/fitted_model.h"
#include "models/open/m_array.h"

namespace evet::models {

struct EntryTerms {
  bool survival_by_occasion = false;
  bool capture_by_occasion = false;
  bool ends_known =
      false;  // first and last capture probability set to 1, so that all else by occasion is estimable
  bool conditional = false;  // super-population: given the number caught, N = caught / Pr(caught)
};

// All animals that were ever there, N, entering with chances b_0 ... b_{k-1}. Schwarz & Arnason (1996),
// Biometrics 52:860-873. Estimates: "N ever", survival, capture, "entry i", "N i" (present on occasion i),
// "births i".
FittedModel fit_super_population(const MArray& array, const EntryTerms& terms,
                                 const ModelOptions& options = {});

enum class GrowthForm { growth, recruitment, seniority };
struct GrowthTerms {
  GrowthForm form = GrowthForm::growth;
  bool survival_by_occasion = false;
  bool capture_by_occasion = false;
  bool growth_by_occasion = false;  // of the quantity that the form names
};

// Pradel (1996), Biometrics 52:703-709. Estimates: survival, capture, and growth rate (lambda), recruitment
// (f = lambda - survival) and seniority (gamma = survival / lambda) of each interval (or one of each when all
// are constant).
FittedModel fit_growth(const MArray& array, const GrowthTerms& terms, const ModelOptions& options = {});

}  // namespace evet::models
