// How far two pattern codes differ: the share of differing bits among those known in both.
#pragma once
#include <cstdint>

#include "matcher/pattern/pattern.h"

namespace evet {

struct CodeDistance {
  int differing = 0;  // bits known in both that differ
  int known = 0;      // bits known in both, 0 .. 2048
};

// The fastest way this processor has; the same counts as code_distance_portable, bit for bit.
CodeDistance code_distance(const PatternCode& a, const PatternCode& b);
CodeDistance code_distance_portable(const PatternCode& a, const PatternCode& b);

// Fractional distance brought to a common number of known bits, so that a score of few bits is not taken for
// as good as the same score of many (Daugman 2003, eq. 4): 0 same, about 0.5 unrelated. Few known bits pull
// it to 0.5.
double normalised(const CodeDistance& distance);

}  // namespace evet
