// From dense, noisy, partly wrong body coordinates to one smooth map from the strip to the photo.
//
// Penalised least squares with a redescending loss, its scale lowered from wide to narrow (graduated
// non-convexity), so that fingers, leaves and holes are bridged and not followed: Black & Rangarajan,
// Int. J. Computer Vision 19 (1996); spline penalty: Eilers & Marx, Statistical Science 11 (1996).
// Residuals are weighed in body coordinates, where the errors live, through the map's own Jacobian.
#pragma once
#include <optional>

#include "matcher/belly/body_coordinates.h"
#include "matcher/belly/strip_map.h"

namespace evet {

struct FitOptions {
  double min_p_belly = 0.4;     // grid pixels below it do not take part
  double assumed_error = 0.02;  // of u, where the coordinates do not say
  double pixels_per_fact = 12;  // neighbouring pixels err together: so many count as one
  double bend_prior = 4;        // standard deviation of the midline's second derivative, belly lengths
  double loss_scale = 2.5;      // residuals beyond so many expected errors lose their say
  int iterations = 8;
  int min_pixels = 24;  // fewer belly pixels than this make no fit
  void check() const;
};

struct StripFit {
  StripMap photo_from_strip;
  double inlier_share = 0;  // of the weight of all belly pixels, how much agrees with the map
  double error_u = 0;       // root mean square of the agreeing pixels' residuals
  double error_v = 0;
  double folded_share = 0;      // of the seen part of the strip, where the map turns skin inside out
  double u_from = 0, u_to = 1;  // range of u that agreeing pixels support
};

// No value: too few belly pixels, or they agree on no map.
std::optional<StripFit> fit_strip(const BodyCoordinates& coordinates, const FitOptions& options = {});

}  // namespace evet
