#include "matcher/search/join_patterns.h"

#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "matcher/pattern/spot_map.h"
#include "tests/matcher/search/synthetic_maps.h"

namespace evet {
namespace {

double share_known(const Pattern& p) {
  return static_cast<double>(cv::countNonZero(p.map.valid)) / static_cast<double>(p.map.valid.total());
}

// Mean difference from the truth, of 255, where the joined pattern claims to know.
double error_of(const Pattern& p, const SpotMap& truth) {
  return cv::norm(p.map.dark, truth.dark, cv::NORM_L1, p.map.valid) / cv::countNonZero(p.map.valid);
}

TEST(JoinPatterns, FillsWhatOnePhotoHidFromAnother) {
  const SpotMap skin = synthetic::spotted(7);
  const Pattern upper = pattern_of(synthetic::covered(skin, {0, 150, 80, 106}), 1);
  const Placement moved{.u_shift = 0.03, .u_stretch = 1.02, .v_shift = 0.1, .v_stretch = 1};
  const Pattern lower =
      pattern_of(synthetic::covered(synthetic::warped(skin, moved, 0, 1), {0, 0, 80, 60}), 1);
  const JoinedPattern joined = join_patterns({lower, upper});
  EXPECT_EQ(joined.used, (std::vector<std::size_t>{0, 1})) << "the frame shows the most skin";
  EXPECT_GT(share_known(joined.pattern), share_known(lower) + 0.15);
  // In the frame of `lower`, whose skin is the whole one moved.
  EXPECT_LT(error_of(joined.pattern, synthetic::warped(skin, moved, 0, 1)), 25);
}

TEST(JoinPatterns, APhotoOfAnotherAnimalIsLeftOut) {
  const Pattern one = pattern_of(synthetic::spotted(1), 1), other = pattern_of(synthetic::spotted(2), 1);
  const JoinedPattern joined = join_patterns({one, other});
  EXPECT_EQ(joined.used.size(), 1u);
  EXPECT_EQ(cv::norm(joined.pattern.map.dark, one.map.dark, cv::NORM_INF), 0);
}

TEST(JoinPatterns, ATurnedPhotoIsTurnedBackWhenItsHeadIsInDoubt) {
  const SpotMap skin = synthetic::spotted(3);
  const Pattern sure = pattern_of(skin, 1),
                doubtful = pattern_of(turned(synthetic::covered(skin, {0, 0, 80, 40})), 0.5);
  const JoinedPattern joined = join_patterns({doubtful, sure});
  EXPECT_EQ(joined.used, (std::vector<std::size_t>{1, 0}));
  EXPECT_LT(error_of(joined.pattern, skin), 10);
}

TEST(JoinPatterns, OnePhotoComesBackAsItIsAndNoneIsAnError) {
  const Pattern one = pattern_of(synthetic::spotted(4), 0.8);
  const JoinedPattern joined = join_patterns({one});
  EXPECT_EQ(joined.used, std::vector<std::size_t>{0});
  EXPECT_EQ(joined.pattern.code.bits, one.code.bits);
  EXPECT_THROW(join_patterns({}), Error);
  JoinOptions wrong;
  wrong.min_correlation = 2;
  EXPECT_THROW(join_patterns({one}, wrong), Error);
}

}  // namespace
}  // namespace evet
