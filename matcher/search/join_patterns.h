// Several photos of one animal in one hand: one better pattern.
//
// The photo that shows the most skin is kept as the frame; each other photo is aligned to it, and fills what
// glare, fingers or a roll hid there. Where both know the skin, their darkness is averaged. A photo that does
// not fit the frame well is left out rather than blurred in. Not for photos of different captures: skin
// changes between them, and the change is evidence.
#pragma once
#include <cstddef>
#include <vector>

#include "matcher/pattern/make_pattern.h"
#include "matcher/search/compare.h"

namespace evet {

struct JoinOptions {
  double min_correlation = 0.55;  // of the aligned maps, below which a photo is left out
  CompareOptions compare;
  PatternOptions pattern;
  void check() const;
};

struct JoinedPattern {
  Pattern pattern;
  std::vector<std::size_t> used;  // indices of the photos that went into it, the frame first
};

// Errors: usage, for no photo at all. One photo comes back as it is.
JoinedPattern join_patterns(const std::vector<Pattern>& photos, const JoinOptions& options = {});

}  // namespace evet
