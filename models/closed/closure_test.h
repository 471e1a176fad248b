// Was the population closed? Under closure an animal caught k times was caught on any k of
// the t occasions alike.
#pragma once
#include "models/capture_histories.h"

namespace evet::models {

struct ClosureTest {
  double z =
      0;  // standard normal under closure; strongly negative: captures of an animal lie too close together
  double p_value = 1;  // one-sided, small when animals came or went
  double animals = 0;  // that were caught twice or more, all the test rests on
};

// Mean span between first and last capture against its exact expectation, by number of captures, pooled.
// Otis, Burnham, White & Anderson (1978), Wildl. Monogr. 62, pp. 120-121. Behaviour and time trends disturb
// it too.
ClosureTest closure_test(const CaptureHistories& histories);

}  // namespace evet::models
