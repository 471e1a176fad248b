// One photo's pattern against another's: code, alignment, measures. The part of a search that the fit of the
// model shares with the search itself.
#pragma once
#include <array>
#include <vector>

#include "matcher/search/code_search.h"
#include "matcher/search/evidence.h"

namespace evet {

struct CompareOptions {
  CodeSearchOptions codes;
  AlignOptions align;
  int starts = 3;  // placements from the codes that the alignment tries
  void check() const;
};

// A query prepared once and compared many times.
struct PreparedQuery {
  const Pattern* pattern = nullptr;
  std::vector<PlacedCode> codes;
  std::array<AlignmentMaps, 2> maps;       // as it is; turned end for end (empty when that is not tried)
  std::array<std::vector<Spot>, 2> spots;  // likewise
  std::array<std::vector<float>, 2> descriptors;  // likewise
};
// `ways`: prepared for these placements as well as for those that the query's own doubt asks for.
PreparedQuery prepare(const Pattern& query, const CompareOptions& options = {}, Ways ways = {});

// A query for one pattern alone, and where it is best laid on it.
struct PreparedPair {
  PreparedQuery query;
  std::vector<CodeHit> hits;
};
PreparedPair prepare_for(const Pattern& query, const Pattern& gallery, const CompareOptions& options = {});

// Cosine of the descriptors, the better way round.
double cosine_similarity(const PreparedQuery& query, const Pattern& gallery);

struct Comparison {
  Measures measures{};
  Alignment alignment;  // gallery (u, v) -> query (u, v), of the query turned first if `turned`
  bool turned = false;
  int matched_spots = 0;
};
// `hits` from best_hits, best first; at least one must be comparable.
Comparison compare(const PreparedQuery& query, const Pattern& gallery, const std::vector<CodeHit>& hits,
                   Order order, const CompareOptions& options = {});

// Order of the two nights, "2031-05-14" each; the gallery's pattern is the fixed one.
Order order_of(const std::string& gallery_night, const std::string& query_night);

}  // namespace evet
