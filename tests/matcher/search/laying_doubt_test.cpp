#include "matcher/search/laying_doubt.h"

#include <gtest/gtest.h>

#include <cmath>

#include "matcher/search/posterior.h"

namespace evet {
namespace {

Pattern pattern(double p_laid_right, double p_head_right) {
  Pattern out;
  out.p_laid_right = p_laid_right, out.p_head_right = p_head_right;
  return out;
}

TEST(LayingDoubt, WithoutDoubtTheRatioStands) {
  for (double llr : {-7.0, 0.0, 13.0})
    EXPECT_DOUBLE_EQ(doubted_llr(llr, pattern(1, 1), pattern(1, 1), false), llr);
}

TEST(LayingDoubt, AMixtureOfTheRatioAndOfNothing) {
  // By hand: 0.9 x 0.8 = 0.72 laid right, so 0.72 e^2 + 0.28.
  EXPECT_NEAR(doubted_llr(2, pattern(0.9, 1), pattern(0.8, 1), false), std::log(0.72 * std::exp(2) + 0.28),
              1e-12);
  EXPECT_NEAR(doubted_llr(-50, pattern(0.9, 1), pattern(0.8, 1), false), std::log(0.28), 1e-9);
  EXPECT_NEAR(doubted_llr(13, pattern(0.9, 1), pattern(1, 1), false), 13 + std::log(0.9), 1e-4);
}

TEST(LayingDoubt, AMatchTheWrongWayRoundIsAsLikelyAsTheEndsAreWrong) {
  const Pattern sure = pattern(1, 0.999), unsure = pattern(1, 0.6);
  EXPECT_NEAR(doubted_llr(5, sure, sure, true), 5 + std::log(1 - 0.999 * 0.999 - 0.001 * 0.001), 1e-9);
  EXPECT_NEAR(doubted_llr(5, unsure, sure, true), 5 + std::log(1 - 0.6 * 0.999 - 0.4 * 0.001), 1e-9);
  // Both turned is the same way again.
  EXPECT_NEAR(doubted_llr(5, pattern(1, 0), pattern(1, 0), false), 5, 1e-9);
}

TEST(LayingDoubt, ADoubtfulStripIsLookedAtAndNeverSurelyNew) {
  SearchOptions costs;
  for (const double p_laid : {0.5, 0.7, 0.9}) {
    const double floor = doubted_llr(-50, pattern(p_laid, 1), pattern(1, 1), false);
    for (const size_t known : {size_t{1}, size_t{20}, size_t{1000}}) {
      const Posterior p = posterior(std::vector<double>(known, floor), costs.prior_recapture);
      EXPECT_LT(p.is_new, 0.95);
      EXPECT_EQ(advise(p.individual[0], p.is_new, costs), Advice::look) << p_laid << " of " << known;
    }
  }
}

}  // namespace
}  // namespace evet
