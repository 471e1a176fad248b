#include "matcher/belly/head_end.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

namespace evet {
namespace {

constexpr double kShare = 0.42;

// A look at an animal whose belly is the middle, with a part where asked: rows 0 to 127.
BodyCoordinates look_with(cv::Mat1f BodyCoordinates::*part, int from_row, int to_row) {
  BodyCoordinates k;
  k.p_belly = cv::Mat1f::zeros(128, 128);
  cv::rectangle(k.p_belly, {56, 37, 16, 54}, cv::Scalar(0.9), cv::FILLED);
  k.error = cv::Mat1f(128, 128, 0.05f);
  k.uv = cv::Mat2f(128, 128, cv::Vec2f(0.5f, 0));
  for (cv::Mat1f* p : {&k.p_head, &k.p_fore_limb, &k.p_hind_limb, &k.p_tail}) *p = cv::Mat1f::zeros(128, 128);
  cv::rectangle(k.*part, {58, from_row, 12, to_row - from_row}, cv::Scalar(0.9), cv::FILLED);
  return k;
}

TEST(HeadEnd, EachPartSpeaksForTheEndThatItLiesAt) {
  EXPECT_GT(head_evidence(look_with(&BodyCoordinates::p_head, 15, 34), kShare).head, 0.8);
  EXPECT_LT(head_evidence(look_with(&BodyCoordinates::p_head, 95, 114), kShare).head, -0.8);
  EXPECT_GT(head_evidence(look_with(&BodyCoordinates::p_tail, 95, 127), kShare).tail, 0.8);
  EXPECT_LT(head_evidence(look_with(&BodyCoordinates::p_tail, 2, 34), kShare).tail, -0.8);
  EXPECT_GT(head_evidence(look_with(&BodyCoordinates::p_fore_limb, 38, 46), kShare).fore_limbs, 0.4);
  EXPECT_GT(head_evidence(look_with(&BodyCoordinates::p_hind_limb, 82, 90), kShare).hind_limbs, 0.4);
}

TEST(HeadEnd, PartsOutweighCoordinatesThatDoNotKnow) {
  const HeadEvidence vague = head_evidence(look_with(&BodyCoordinates::p_head, 15, 34), kShare);
  EXPECT_NEAR(vague.coordinates, 0, 1e-6);
  EXPECT_GT(head_up_log_odds(vague, vague), 0.5);
  EXPECT_LT(head_up_log_odds(-vague, -vague), -0.5);
}

TEST(HeadEnd, TurningRoundTurnsEverySign) {
  const HeadEvidence e{1, 0.5, 0.25, -0.5, 0.1}, back = -e, none = mean_of(e, back);
  EXPECT_EQ(back.head, -0.5);
  EXPECT_EQ(none.coordinates, 0);
  EXPECT_EQ(none.hind_limbs, 0);
  EXPECT_DOUBLE_EQ(head_up_log_odds(e, e), -head_up_log_odds(back, back));
}

TEST(HeadEnd, ASourceThatKnowsNoPartsSaysNothingOfThem) {
  BodyCoordinates k = look_with(&BodyCoordinates::p_head, 15, 34);
  k.p_head.release();
  EXPECT_EQ(head_evidence(k, kShare).head, 0);
}

}  // namespace
}  // namespace evet
