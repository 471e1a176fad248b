// From a strip to what is kept for matching.
#pragma once
#include "matcher/belly/strip.h"
#include "matcher/pattern/pattern.h"

namespace evet {

struct PatternOptions {
  double min_spot_area = 4e-4;  // share of the canvas below which a spot is not listed
  void check() const;
};

// Everything that is kept of a strip. Throws bad_input for a strip of another size.
Pattern make_pattern(const Strip& strip, double p_head_right, const PatternOptions& options = {});

// The same with all the doubt there is about how the strip was laid.
Pattern make_pattern(const Strip& strip, const BellyShape& laid, const PatternOptions& options = {});

// The same from a spot map that is already there (from the cache, or made by a test).
Pattern pattern_of(SpotMap map, double p_head_right, const PatternOptions& options = {});

}  // namespace evet
