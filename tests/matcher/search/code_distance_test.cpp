#include "matcher/search/code_distance.h"

#include <gtest/gtest.h>

#include <random>

namespace evet {
namespace {

PatternCode random_code(std::mt19937_64& rng, int style) {
  PatternCode code;
  for (int i = 0; i < PatternCode::kWords; ++i) {
    code.known[i] = style == 0 ? 0 : style == 1 ? ~0ULL : rng();
    code.bits[i] = rng() & code.known[i];
  }
  return code;
}

TEST(CodeDistance, FastPathCountsAsThePortableOneDoes) {
  std::mt19937_64 rng(7);
  for (int i = 0; i < 3000; ++i) {
    const PatternCode a = random_code(rng, i % 4), b = random_code(rng, i / 4 % 4);
    const CodeDistance fast = code_distance(a, b), plain = code_distance_portable(a, b);
    ASSERT_EQ(fast.differing, plain.differing);
    ASSERT_EQ(fast.known, plain.known);
  }
}

TEST(CodeDistance, FullRegistersDoNotOverflow) {
  PatternCode a, b;
  a.known.fill(~0ULL), b.known.fill(~0ULL), a.bits.fill(~0ULL);
  EXPECT_EQ(code_distance(a, b).differing, 2048);
  EXPECT_EQ(code_distance(a, b).known, 2048);
}

TEST(CodeDistance, IsSymmetricAndZeroToItself) {
  std::mt19937_64 rng(8);
  const PatternCode a = random_code(rng, 2), b = random_code(rng, 3);
  EXPECT_EQ(code_distance(a, b).differing, code_distance(b, a).differing);
  EXPECT_EQ(code_distance(a, a).differing, 0);
}

// Daugman 2003, section 5: the fewer bits compared, the nearer to one half the normalised distance must come.
TEST(CodeDistance, FewBitsAreTrustedLess) {
  EXPECT_GT(normalised({.differing = 20, .known = 100}), normalised({.differing = 200, .known = 1000}));
  EXPECT_DOUBLE_EQ(normalised({.differing = 0, .known = 0}), 0.5);
  EXPECT_DOUBLE_EQ(normalised({.differing = 50, .known = 100}), 0.5);
}

}  // namespace
}  // namespace evet
