// Open models that also speak of animals coming in: the super-population and the growth rate.
//
// Both join the chance of first captures to the survival model given release. Constants
// (ln u_i!) are left out.
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
// "births i", "growth rate i" from those left after an occasion to those there at the next, and "mean growth"
// (e to the slope of ln N on time).
FittedModel fit_super_population(const MArray& array, const EntryTerms& terms,
                                 const ModelOptions& options = {});

// The same by groups, given the numbers caught. Animals of each group come in by themselves; survival and capture
// vary as the terms say, which may name groups and covariates of occasions but none of animals: an animal that
// was never caught has no length. Numbers and growth also for each level of each group that the terms or
// `numbers_by` name.
struct EntryChoice {
  Terms survival, capture;
  bool ends_known = false;
  // Of the animals that came in, a share is gone by the next occasion and never seen again; one share for those
  // there at the first occasion, one for those that came in later. The mixture of Pradel, Hines, Lebreton &
  // Nichols (1997), Biometrics 53:60-72, carried on to animals not yet caught: ours.
  bool passing = false;
  std::vector<std::string> numbers_by = {};
};
FittedModel fit_super_population(const CaptureHistories& histories, const EntryChoice& choice,
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

// The same by groups and covariates of occasions, each group given the numbers caught of it.
struct GrowthChoice {
  GrowthForm form = GrowthForm::growth;
  Terms survival, capture, rate;
};
FittedModel fit_growth(const CaptureHistories& histories, const GrowthChoice& choice,
                       const ModelOptions& options = {});

}  // namespace evet::models
