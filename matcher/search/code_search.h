// One query pattern against many codes: the query's code is read at every likely placement once, and each
// gallery code is held against all of those.
#pragma once
#include <vector>

#include "matcher/pattern/pattern_code.h"
#include "matcher/search/code_distance.h"

namespace evet {

struct CodeSearchOptions {
  double u_reach = 0.10, u_step = 0.02;  // shifts along, in lengths
  double v_reach = 0.45, v_step = 0.09;  // shifts across, in half-widths
  std::vector<double> u_stretches = {0.93, 1.0, 1.07};
  double turn_below = 0.985;  // the pattern turned end for end is tried too when a p_head_right is below this
  void check() const;
};

// A query code and how it was laid: gallery (u, v) -> placement -> query (u, v), the query turned end for end
// first if `turned`.
struct PlacedCode {
  PatternCode code;
  Placement placement;
  bool turned = false;
};
// `turned_too`: also turned end for end, each placement.
std::vector<PlacedCode> placed_codes(const Pattern& query, bool turned_too,
                                     const CodeSearchOptions& options = {});

// Whether two patterns may lie end for end to each other: the head end of either is in doubt.
bool may_be_turned(const Pattern& query, const Pattern& gallery, const CodeSearchOptions& options = {});

struct CodeHit {
  double distance = 0.5;  // normalised
  int placed = -1;        // index into the placed codes; -1 when nothing was comparable
};
// The `keep` best placements, best first, ties to the lower index; turned ones only if `turned_too`.
std::vector<CodeHit> best_hits(const std::vector<PlacedCode>& query, const PatternCode& gallery, int keep,
                               bool turned_too = true);

}  // namespace evet
