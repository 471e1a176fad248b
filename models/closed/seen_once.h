// Too many animals seen once only: the plain sign of misread animals.
//
// A recapture that is taken for a new animal leaves one more animal that is never seen again. Animals
// seen twice or more are hardly ever made of errors, so they tell how many should have been seen once if
// all were alike; more than that says that identities are misread, or that some animals are hard to
// catch again. Yoshizaki, Pollock, Brownie & Webster (2009), Ecology 90:3-9, on such ghosts (from
// memory); the test is ours.
#pragma once
#include "models/closed/closed_counts.h"

namespace evet::models {

struct SeenOnce {
  double seen = 0, expected = 0;  // animals seen once
  double z = 0, p_value = 1;      // one-sided: more than expected
  bool tested = false;            // at least ten animals seen twice, on four occasions or more
};

SeenOnce seen_once_test(const CaptureHistories& histories);

}  // namespace evet::models
