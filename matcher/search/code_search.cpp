#include "matcher/search/code_search.h"

#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "matcher/pattern/spot_map.h"

namespace evet {

void CodeSearchOptions::check() const {
  if (u_step <= 0 || v_step <= 0 || u_reach < 0 || v_reach < 0)
    throw Error(ErrorKind::usage, "code search", "steps must be above 0 and reaches not below 0");
  if (u_stretches.empty()) throw Error(ErrorKind::usage, "code search", "at least one stretch is needed");
}

std::vector<PlacedCode> placed_codes(const Pattern& query, bool turned_too,
                                     const CodeSearchOptions& options) {
  options.check();
  std::vector<PlacedCode> out;
  const int along = static_cast<int>(std::lround(options.u_reach / options.u_step)),
            across = static_cast<int>(std::lround(options.v_reach / options.v_step));
  for (const bool turn : {false, true}) {
    if (turn && !turned_too) break;
    const BandResponses responses = band_responses(turn ? turned(query.map) : query.map);
    for (const double stretch : options.u_stretches)
      for (int i = -along; i <= along; ++i)
        for (int j = -across; j <= across; ++j) {
          const Placement placement{
              .u_shift = i * options.u_step, .u_stretch = stretch, .v_shift = j * options.v_step};
          out.push_back({read_code(responses, placement), placement, turn});
        }
  }
  return out;
}

bool may_be_turned(const Pattern& query, const Pattern& gallery, const CodeSearchOptions& options) {
  return std::min(query.p_head_right, gallery.p_head_right) < options.turn_below;
}

std::vector<CodeHit> best_hits(const std::vector<PlacedCode>& query, const PatternCode& gallery, int keep,
                               bool turned_too) {
  std::vector<CodeHit> hits;
  for (size_t i = 0; i < query.size(); ++i) {
    if (query[i].turned && !turned_too) break;  // the turned ones are the last
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
