#include "matcher/search/llr_map.h"

#include <gtest/gtest.h>

#include <limits>

#include "matcher/base/error.h"

namespace evet {
namespace {

constexpr double kLowest = -6, kHighest = 12;

TEST(LlrMap, AsShippedChangesNothingNotByABit) {
  for (const double llr : {-8.0, -6.0, -1.5, 0.0, 11.999, 12.0})
    EXPECT_EQ(LlrMap{}(llr, kLowest, kHighest), llr);
}

TEST(LlrMap, NearTheIdentityItIsNearTheIdentity) {
  for (double llr = -6; llr < 11.9; llr += 0.1)
    EXPECT_NEAR((LlrMap{1, 1e-9}(llr, kLowest, kHighest)), llr, 1e-6) << llr;
}

TEST(LlrMap, InTheMiddleItIsAffine) {
  EXPECT_NEAR((LlrMap{0.8, -0.5}(3, kLowest, kHighest)), 0.8 * 3 - 0.5, 2e-3);
  EXPECT_NEAR((LlrMap{1.2, 0.5}(-1, kLowest, kHighest)), -1.2 + 0.5, 2e-2);
}

// Property: strictly rising, and never beyond what the shipped model may claim.
TEST(LlrMap, RisesStrictlyAndStaysUnderTheCaps) {
  for (const double scale : {0.3, 0.9, 1.5, 4.0})
    for (const double shift : {-3.0, 0.0, 3.0}) {
      const LlrMap map{scale, shift};
      double before = -1e9;
      for (double llr = kLowest - 1.7; llr < kHighest; llr += 0.05) {
        const double mapped = map(llr, kLowest, kHighest);
        if (mapped < kHighest - 1e-9) {  // there doubles run out
          EXPECT_GT(mapped, before) << scale << " " << shift << " " << llr;
        }
        EXPECT_GE(mapped, before);
        EXPECT_LE(mapped, kHighest);
        EXPECT_GE(mapped, kLowest - 2);
        before = mapped;
      }
    }
}

TEST(LlrMap, RefusesWhatIsNoRisingMap) {
  EXPECT_THROW((LlrMap{0, 0}.check()), Error);
  EXPECT_THROW((LlrMap{-1, 0}.check()), Error);
  EXPECT_THROW((LlrMap{1, std::numeric_limits<double>::quiet_NaN()}.check()), Error);
}

}  // namespace
}  // namespace evet
