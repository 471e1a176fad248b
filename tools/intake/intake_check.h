// The first pass of an intake: which rows can be taken, what is in the catalogue already, what is new.
#pragma once
#include "tools/intake/intake_outcome.h"
#include "tools/intake/intake_plan.h"

namespace evet {

// Fills the outcome's refused rows, notices and counts of what is known.
IntakePlan check_night(Catalogue& catalogue, const IntakeRequest& request, Env& env, IntakeOutcome& outcome);

}  // namespace evet
