// Survival and recapture where being caught matters: animals that only pass through, and
// an answer to capture.
//
// Newly caught animals may survive the interval after their first capture with a chance of their own: those
// that pass through are gone then, and the survival of the others is that of residents (Pradel, Hines,
// Lebreton & Nichols 1997, Biometrics 53:60-72, from memory). Recapture may differ on the occasion just after
// a capture: animals that seek or shun the traps (Pradel 1993, in Marked Individuals in the Study of Bird
// Population, from memory). The likelihood is that of models/open/survival.h, which these models hold as a
// special case, so rows compare.
#pragma once
#include "models/fit/fitted_model.h"
#include "models/open/m_array.h"

namespace evet::models {

struct ReleaseEffects {
  bool survival_by_occasion = false, recapture_by_occasion = false;
  bool own_first_interval = false;  // survival in the interval after the first capture
  bool own_after_capture = false;   // recapture on the occasion after a capture
};

// Needs three occasions. Estimates: survival and recapture, the survival and recapture just after a capture
// where the model has them (kind `shift` beside them on the logit scale).
FittedModel fit_release_effects(const CaptureHistories& histories, const ReleaseEffects& effects,
                                const ModelOptions& options = {});

}  // namespace evet::models
