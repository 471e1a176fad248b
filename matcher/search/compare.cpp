#include "matcher/search/compare.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/pattern/describe.h"
#include "matcher/pattern/spot_map.h"
#include "matcher/search/messages.h"

namespace evet {

void CompareOptions::check() const {
  codes.check();
  align.check();
  if (starts < 1) throw Error(ErrorKind::usage, "comparison", messages::kStartsBelow1);
}

PreparedQuery prepare(const Pattern& query, const CompareOptions& options, Ways ways) {
  options.check();
  PreparedQuery out;
  out.pattern = &query;
  out.codes = placed_codes(query, ways | ways_between(query, query, options.codes), options.codes);
  out.maps[0] = alignment_maps(query.map);
  out.spots[0] = query.spots;
  out.descriptors[0] = query.descriptor;
  if (!out.codes.empty() && out.codes.back().way.turned) {
    const SpotMap other_way = turned(query.map);
    out.maps[1] = alignment_maps(other_way);
    out.descriptors[1] = describe(other_way);
    out.spots[1] = query.spots;
    for (Spot& spot : out.spots[1]) spot.u = 1 - spot.u, spot.v = -spot.v;
  }
  return out;
}

PreparedPair prepare_for(const Pattern& query, const Pattern& gallery, const CompareOptions& options) {
  const Ways ways = ways_between(query, gallery, options.codes);
  PreparedPair out{prepare(query, options, ways), {}};
  out.hits = best_hits(out.query.codes, gallery.code, options.starts, ways);
  return out;
}

double cosine_similarity(const PreparedQuery& query, const Pattern& gallery) {
  double best = -1;
  for (const std::vector<float>& descriptor : query.descriptors)
    if (!descriptor.empty()) best = std::max(best, cosine_similarity(descriptor, gallery.descriptor));
  return best;
}

Comparison compare(const PreparedQuery& query, const Pattern& gallery, const std::vector<CodeHit>& hits,
                   Order order, const CompareOptions& options) {
  const AlignmentMaps fixed = alignment_maps(gallery.map);
  Comparison best;
  double best_correlation = -2;
  // Each start is taken as far as the coarse maps go; the one that fits best is finished on the fine ones.
  for (size_t i = 0; i < hits.size() && i < static_cast<size_t>(options.starts); ++i) {
    const PlacedCode& placed = query.codes[static_cast<size_t>(hits[i].placed)];
    const Alignment rough =
        align_coarse(fixed, query.maps[placed.way.turned], placed.placement, options.align);
    if (rough.correlation <= best_correlation) continue;
    best_correlation = rough.correlation;
    best.alignment = rough;
    best.turned = placed.way.turned;
  }
  align_fine(fixed, query.maps[best.turned], best.alignment, options.align);
  best.measures = measure(fixed, query.maps[best.turned], best.alignment, hits[0].distance,
                          cosine_similarity(query, gallery), order);
  best.matched_spots = matched_spots(gallery.spots, query.spots[best.turned], best.alignment);
  return best;
}

Order order_of(const std::string& gallery_night, const std::string& query_night) {
  if (gallery_night.empty() || query_night.empty() || gallery_night == query_night) return Order::unknown;
  return gallery_night < query_night ? Order::fixed_first : Order::moving_first;
}

}  // namespace evet
