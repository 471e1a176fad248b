#include "matcher/search/code_search.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "matcher/base/error.h"
#include "tests/matcher/search/synthetic_maps.h"

namespace evet {
namespace {

Pattern sure_pattern(const SpotMap& map) {
  return pattern_of(map, 1);
}

// Two strips of one animal, the second laid 0.17 lengths too far along: beyond the usual reach.
struct SlidPair {
  Pattern query, gallery;
};
SlidPair slid_pair() {
  const SpotMap map = synthetic::spotted(7);
  return {sure_pattern(map), sure_pattern(synthetic::warped(map, {.u_shift = 0.17}, 0, 1))};
}

double best_distance(const SlidPair& pair) {
  const Ways ways = ways_between(pair.query, pair.gallery);
  return best_hits(placed_codes(pair.query, ways), pair.gallery.code, 1, ways)[0].distance;
}

TEST(CodeSearch, DoubtAboutAStripWidensWhereItIsLookedFor) {
  SlidPair pair = slid_pair();
  const double sure = best_distance(pair);
  pair.query.p_laid_right = 0.7;
  const double doubtful = best_distance(pair);
  EXPECT_GT(sure, 0.3) << "without doubt a strip so far off is not looked for";
  EXPECT_LT(doubtful, 0.2);
  pair.query.p_laid_right = 1, pair.gallery.p_laid_right = 0.7;
  EXPECT_EQ(best_distance(pair), doubtful) << "whichever of the two is in doubt";
}

TEST(CodeSearch, EachDoubtAsksForItsOwnWay) {
  SlidPair pair = slid_pair();
  EXPECT_FALSE(ways_between(pair.query, pair.gallery).turned);
  EXPECT_FALSE(ways_between(pair.query, pair.gallery).wide);
  pair.gallery.p_head_right = 0.6;
  EXPECT_TRUE(ways_between(pair.query, pair.gallery).turned);
  EXPECT_FALSE(ways_between(pair.query, pair.gallery).wide);
}

TEST(CodeSearch, WhatIsPreparedButNotAllowedIsNotTaken) {
  const SlidPair pair = slid_pair();
  const std::vector<PlacedCode> all = placed_codes(pair.query, {.turned = true, .wide = true});
  const auto is_beyond = [](const PlacedCode& code) { return code.way.turned || code.way.wide; };
  EXPECT_TRUE(std::any_of(all.begin(), all.end(), is_beyond));
  for (const CodeHit& hit : best_hits(all, pair.gallery.code, 20, {}))
    EXPECT_FALSE(is_beyond(all[static_cast<std::size_t>(hit.placed)]));
  EXPECT_EQ(placed_codes(pair.query, {}).size(),
            all.size() - static_cast<std::size_t>(std::count_if(all.begin(), all.end(), is_beyond)));
}

TEST(CodeSearch, ReachesThatCannotBeAreRefused) {
  CodeSearchOptions options;
  options.u_wide_reach = 0.05;
  EXPECT_THROW(options.check(), Error);
  options = {};
  options.v_step = 0;
  EXPECT_THROW(options.check(), Error);
}

}  // namespace
}  // namespace evet
