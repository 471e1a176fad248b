// Whether two convincing looks are a large newt's belly: a logistic model of what the network says of itself.
//
// Fitted by maximum likelihood, on fit seeds alone, to 512 bellies and 24 other things that the network takes
// for one; how, and what it does on other seeds: models/weights/belly.md.
#pragma once

namespace evet {

struct GateFacts {
  double first_look = 0;    // mean p_belly over the most convincing area, whole picture
  double second_look = 0;   // the same, belly close up
  double p_small_kind = 0;  // of the close look
};

// [0,1]; from 0.5 on it is more likely a belly than not, where one picture in twenty that
// comes so far is none.
double p_large_belly(const GateFacts& facts);

}  // namespace evet
