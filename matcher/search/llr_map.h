// A catalogue's own calibration: what its confirmed pairs say about the shipped model's log-likelihood
// ratios.
//
// Two parameters, scale and shift, in natural-log units (Brümmer & du Preez 2006, Computer Speech and
// Language 20:230, section on calibration by an affine map). The map acts on the ratio as it was before the
// model's caps bent it and is bent by the same caps afterwards: few pairs never let the program claim more
// than the model that it ships with may. It rises strictly, so it never changes the order of candidates by
// their patterns, and at scale 1 and shift 0 it changes nothing.
#pragma once

namespace evet {

struct LlrMap {
  double scale = 1, shift = 0;
  bool changes_nothing() const { return scale == 1 && shift == 0; }
  // `lowest` and `highest`: the model's caps.
  double operator()(double llr, double lowest, double highest) const;
  void check() const;  // Errors: usage, for a scale that is not above 0 or anything not finite
};

}  // namespace evet
