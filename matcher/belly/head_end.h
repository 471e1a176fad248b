// Which end is the head? Evidence from one look whose frame was laid head up, and what it amounts to.
//
// The belly's own coordinates say it, and so do the parts beside it: a head before it, a tail behind it, two
// pairs of limbs that differ. They go wrong for different reasons, so they are weighed together, by a
// logistic model fitted on worlds whose photos the network never saw (models/weights/belly.md).
#pragma once
#include "matcher/belly/body_coordinates.h"

namespace evet {

// All > 0 where the head is up in the look, < 0 where it is down.
struct HeadEvidence {
  double coordinates = 0;  // how steeply u grows downwards against its expected error
  double head = 0;         // head seen beyond the upper end less that beyond the lower, of both; in [-1, 1]
  double tail = 0;         // likewise, tail beyond the lower end
  double fore_limbs = 0;   // fore limbs' mean place, above the middle; half belly lengths, in [-1, 1]
  double hind_limbs = 0;   // hind limbs', below it
};
HeadEvidence operator-(const HeadEvidence& of);  // of the same look turned round
HeadEvidence mean_of(const HeadEvidence& one, const HeadEvidence& other);

// `belly_share`: of the look's height, how much the belly fills.
HeadEvidence head_evidence(const BodyCoordinates& look, double belly_share);

// Log odds that the head is up: `close`, a look that the belly fills; `wide`, one that shows what is beside
// it. Limbs had no say left in the fit once head and tail had theirs.
double head_up_log_odds(const HeadEvidence& close, const HeadEvidence& wide);

}  // namespace evet
