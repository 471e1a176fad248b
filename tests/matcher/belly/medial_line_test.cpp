#include "matcher/belly/medial_line.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "tests/matcher/belly/analytic_belly.h"

namespace evet {
namespace {

// The outline of an analytic belly, on its picture shrunk to `scale`.
cv::Mat1b mask_of(const AnalyticBelly& belly, double scale) {
  cv::Mat1b mask =
      cv::Mat1b::zeros(cvRound(belly.picture.height * scale), cvRound(belly.picture.width * scale));
  for (int y = 0; y < mask.rows; ++y)
    for (int x = 0; x < mask.cols; ++x) {
      double u = 0, v = 0;
      if (belly.find({(x + 0.5) / scale, (y + 0.5) / scale}, u, v)) mask(y, x) = 255;
    }
  return mask;
}

double worst_distance(const Ribbon& ribbon, const AnalyticBelly& belly, double scale) {
  double worst = 0;
  for (double u = 0.05; u < 0.96; u += 0.05) {
    double nearest = 1e9;
    for (const cv::Point2d& p : ribbon.midline)
      nearest = std::min(nearest, cv::norm(p / scale - belly.at(u, 0)));
    worst = std::max(worst, nearest / belly.length);
  }
  return worst;
}

TEST(MedialLine, FollowsTheMiddleOfAStraightAndOfABentBelly) {
  for (const AnalyticBelly& belly : {straight_belly(), arc_belly(40), arc_belly(90)}) {
    constexpr double kScale = 0.12;
    const auto ribbon = medial_ribbon(mask_of(belly, kScale));
    ASSERT_TRUE(ribbon);
    EXPECT_LT(worst_distance(*ribbon, belly, kScale), 0.03);
    EXPECT_NEAR(curve_length(ribbon->midline) / kScale / belly.length, 1, 0.06);
    const double half = ribbon->left[32] / kScale;
    EXPECT_NEAR(half / belly.half_width, 1, 0.12);
  }
}

TEST(MedialLine, OfSeveralRegionsTheDeepestCounts) {
  cv::Mat1b mask = cv::Mat1b::zeros(128, 128);
  cv::rectangle(mask, {20, 20, 20, 80}, cv::Scalar(255), cv::FILLED);
  cv::rectangle(mask, {60, 5, 3, 120}, cv::Scalar(255), cv::FILLED);  // longer, and thin
  const auto ribbon = medial_ribbon(mask);
  ASSERT_TRUE(ribbon);
  for (const cv::Point2d& p : ribbon->midline) EXPECT_NEAR(p.x, 30, 3);
}

TEST(MedialLine, EndsAtTheEdgeOfThePictureWhereTheBellyDoes) {
  cv::Mat1b mask = cv::Mat1b::zeros(100, 60);
  cv::rectangle(mask, {20, 40, 20, 60}, cv::Scalar(255), cv::FILLED);
  const auto ribbon = medial_ribbon(mask);
  ASSERT_TRUE(ribbon);
  const double low = std::max(ribbon->midline.front().y, ribbon->midline.back().y);
  EXPECT_NEAR(low, 100, 1.5);
}

TEST(MedialLine, NothingAndSpecksHaveNone) {
  EXPECT_FALSE(medial_ribbon(cv::Mat1b()));
  EXPECT_FALSE(medial_ribbon(cv::Mat1b::zeros(50, 50)));
  cv::Mat1b speck = cv::Mat1b::zeros(50, 50);
  cv::rectangle(speck, {10, 10, 3, 3}, cv::Scalar(255), cv::FILLED);
  EXPECT_FALSE(medial_ribbon(speck));
}

}  // namespace
}  // namespace evet
