// An affine map of log-likelihood ratios within their caps: a catalogue's own calibration (what its confirmed
// pairs say about the shipped model's ratios), and what the best of several photos is worth (likelihood.h).
//
// Two parameters, scale and shift, in natural-log units (Brümmer & du Preez 2006, Computer Speech and
// Language 20:230, section on calibration by an affine map). The map acts on the ratio as it was before the
// model's caps bent it and is bent by the same caps afterwards: few pairs never let the program claim more
// than the model that it ships with may. It rises strictly, so it never changes the order of candidates by
// their patterns, and at scale 1 and shift 0 it changes nothing.
#pragma once

namespace evet {

// Bends towards the caps without reaching them, so that order is kept: a ratio e^x, its chance to be an error
// of the kind that the caps stand for mixed in, (e^x + e^lowest) / (1 + e^(x - highest)).
double capped(double x, double lowest, double highest);

struct LlrMap {
  double scale = 1, shift = 0;
  bool changes_nothing() const { return scale == 1 && shift == 0; }
  // `lowest` and `highest`: the model's caps.
  double operator()(double llr, double lowest, double highest) const;
  void check() const;  // Errors: usage, for a scale that is not above 0 or anything not finite
};

}  // namespace evet
