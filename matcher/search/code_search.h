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
  double turn_below = 0.99;  // the pattern turned end for end is tried too when a p_head_right is below this
  double wide_below = 0.95;  // shifts up to the wide reaches are tried too when a p_laid_right is below this
  double u_wide_reach = 0.20, v_wide_reach = 0.63;
  void check() const;
};

// Placements beyond the usual: end for end, and shifted further.
struct Ways {
  bool turned = false, wide = false;
};
// What doubt about how two patterns were laid asks for.
Ways ways_between(const Pattern& query, const Pattern& gallery, const CodeSearchOptions& options = {});
Ways operator|(Ways a, Ways b);

// A query code and how it was laid: gallery (u, v) -> placement -> query (u, v), the query turned end for end
// first if `way.turned`.
struct PlacedCode {
  PatternCode code;
  Placement placement;
  Ways way;
};
// `ways`: what is tried beyond the usual.
std::vector<PlacedCode> placed_codes(const Pattern& query, Ways ways, const CodeSearchOptions& options = {});

struct CodeHit {
  double distance = 0.5;  // normalised
  int placed = -1;        // index into the placed codes; -1 when nothing was comparable
};
// The `keep` best placements, best first, ties to the lower index; beyond the usual only what `ways` allows.
std::vector<CodeHit> best_hits(const std::vector<PlacedCode>& query, const PatternCode& gallery, int keep,
                               Ways ways = {.turned = true, .wide = true});

}  // namespace evet
