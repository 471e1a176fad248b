#include "matcher/search/code_search.h"

#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "matcher/pattern/spot_map.h"
#include "matcher/search/messages.h"

namespace evet {

void CodeSearchOptions::check() const {
  if (u_step <= 0 || v_step <= 0 || u_reach < 0 || v_reach < 0)
    throw Error(ErrorKind::usage, "code search", messages::kStepsAndReaches);
  if (u_wide_reach < u_reach || v_wide_reach < v_reach)
    throw Error(ErrorKind::usage, "code search", messages::kWideReachesBelow);
  if (u_stretches.empty()) throw Error(ErrorKind::usage, "code search", messages::kNoStretch);
}

Ways ways_between(const Pattern& query, const Pattern& gallery, const CodeSearchOptions& options) {
  return {.turned = std::min(query.p_head_right, gallery.p_head_right) < options.turn_below,
          .wide = std::min(query.p_laid_right, gallery.p_laid_right) < options.wide_below};
}

Ways operator|(Ways a, Ways b) {
  return {.turned = a.turned || b.turned, .wide = a.wide || b.wide};
}

std::vector<PlacedCode> placed_codes(const Pattern& query, Ways ways, const CodeSearchOptions& options) {
  options.check();
  const auto steps = [](double reach, double step) { return static_cast<int>(std::lround(reach / step)); };
  const int along = steps(options.u_reach, options.u_step), across = steps(options.v_reach, options.v_step),
            most_along = ways.wide ? steps(options.u_wide_reach, options.u_step) : along,
            most_across = ways.wide ? steps(options.v_wide_reach, options.v_step) : across;
  std::vector<PlacedCode> out;
  for (const bool turn : {false, true}) {
    if (turn && !ways.turned) break;
    const BandResponses responses = band_responses(turn ? turned(query.map) : query.map);
    for (const double stretch : options.u_stretches)
      for (int i = -most_along; i <= most_along; ++i)
        for (int j = -most_across; j <= most_across; ++j) {
          const Placement placement{
              .u_shift = i * options.u_step, .u_stretch = stretch, .v_shift = j * options.v_step};
          const bool wide = std::abs(i) > along || std::abs(j) > across;
          out.push_back({read_code(responses, placement), placement, {.turned = turn, .wide = wide}});
        }
  }
  return out;
}

std::vector<CodeHit> best_hits(const std::vector<PlacedCode>& query, const PatternCode& gallery, int keep,
                               Ways ways) {
  std::vector<CodeHit> hits;
  for (size_t i = 0; i < query.size(); ++i) {
    if ((query[i].way.turned && !ways.turned) || (query[i].way.wide && !ways.wide)) continue;
    const double distance = normalised(code_distance(query[i].code, gallery));
    if (static_cast<int>(hits.size()) == keep && distance >= hits.back().distance) continue;
    if (static_cast<int>(hits.size()) == keep) hits.pop_back();
    const auto at = std::upper_bound(hits.begin(), hits.end(), distance,
                                     [](double d, const CodeHit& hit) { return d < hit.distance; });
    hits.insert(at, {distance, static_cast<int>(i)});
  }
  return hits;
}

}  // namespace evet
