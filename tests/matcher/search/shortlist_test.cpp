#include "matcher/search/shortlist.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "matcher/base/error.h"
#include "tests/matcher/search/synthetic_maps.h"

namespace evet {
namespace {

std::vector<std::vector<float>> descriptors(int count, unsigned first_seed) {
  std::vector<std::vector<float>> out;
  for (int i = 0; i < count; ++i) {
    const unsigned seed = first_seed + static_cast<unsigned>(i);
    out.push_back(pattern_of(synthetic::spotted(seed, 15 + static_cast<int>(seed % 30)), 1).descriptor);
  }
  return out;
}

TEST(Shortlist, FlannFindsWhatTheExactScanFinds) {
  const auto gallery = descriptors(1500, 1000), queries = descriptors(40, 9000);
  const Shortlist fast(gallery, {.exact_below = 10, .checks = 700});
  int found = 0, wanted = 0;
  for (const auto& query : queries) {
    const std::vector<int> got = fast.nearest(query, 20), oracle = fast.nearest_exact(query, 20);
    for (const int i : oracle) found += std::count(got.begin(), got.end(), i) > 0, ++wanted;
  }
  EXPECT_GE(found, 0.95 * wanted) << "recall at 20 is " << found << " of " << wanted;
}

TEST(Shortlist, TheSameSeedGivesTheSameAnswer) {
  const auto gallery = descriptors(300, 1), queries = descriptors(5, 5000);
  const ShortlistOptions options{.exact_below = 10, .checks = 32, .seed = 3};
  const Shortlist a(gallery, options), b(gallery, options);
  for (const auto& query : queries) EXPECT_EQ(a.nearest(query, 30), b.nearest(query, 30));
}

TEST(Shortlist, SmallGalleriesAreScannedExactlyAndEmptyOnesGiveNothing) {
  const auto gallery = descriptors(30, 1);
  const Shortlist small(gallery), none({});
  EXPECT_EQ(small.nearest(gallery[7], 3), small.nearest_exact(gallery[7], 3));
  EXPECT_EQ(small.nearest(gallery[7], 3)[0], 7);
  EXPECT_EQ(small.nearest(gallery[7], 99).size(), 30U);
  EXPECT_TRUE(none.nearest(gallery[0], 5).empty());
}

TEST(Shortlist, DescriptorsOfTwoLengthsAreRefused) {
  EXPECT_THROW(Shortlist({{1.F, 0.F}, {1.F}}), Error);
}

}  // namespace
}  // namespace evet
