#include "matcher/pattern/spot_map.h"

#include <gtest/gtest.h>

#include <random>

#include "matcher/base/error.h"
#include "matcher/pattern/make_pattern.h"
#include "tests/matcher/search/synthetic_maps.h"

namespace evet {
namespace {

constexpr double kOrange[3] = {0.04, 0.25, 0.75}, kBlack[3] = {0.03, 0.035, 0.04};  // linear b, g, r

// A strip with the given dark areas under light that falls off along and across and has a colour.
Strip lit(const cv::Mat1b& dark, const cv::Vec3d& cast, double falloff, unsigned seed) {
  std::mt19937 rng(seed);
  std::normal_distribution<double> noise(0, 2);
  Strip strip{cv::Mat3b(kStripRows, kStripCols), cv::Mat1b(kStripRows, kStripCols, uchar{255})};
  for (int r = 0; r < kStripRows; ++r)
    for (int c = 0; c < kStripCols; ++c) {
      const double u = (r + 0.5) / kStripRows, v = (c + 0.5) / kStripCols * 2 - 1;
      const double light = std::exp(-falloff * (u + v * v));
      const double share = dark(r / 2, c / 2) / 255.0;
      for (int k = 0; k < 3; ++k) {
        const double linear =
            std::clamp(light * cast[k] * (share * kBlack[k] + (1 - share) * kOrange[k]), 0.0, 1.0);
        const double s = linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
        strip.bgr(r, c)[k] = cv::saturate_cast<uchar>(255 * s + noise(rng));
      }
    }
  return strip;
}

double share_right(const cv::Mat1b& truth, const SpotMap& map) {
  int right = 0;
  for (int r = 0; r < kMapRows; ++r)
    for (int c = 0; c < kMapCols; ++c) right += (truth(r, c) >= 128) == (map.dark(r, c) >= 128);
  return right / static_cast<double>(truth.total());
}

TEST(SpotMap, IsFreeOfCastAndFalloff) {
  const cv::Mat1b truth = synthetic::spotted(11).dark;
  for (const cv::Vec3d& cast :
       {cv::Vec3d(1, 1, 1), cv::Vec3d(0.45, 0.75, 1), cv::Vec3d(1.2, 1, 0.7), cv::Vec3d(0.7, 1.1, 0.6)})
    for (const double falloff : {0.0, 0.6, 1.2})
      EXPECT_GT(share_right(truth, make_spot_map(lit(truth, cast, falloff, 1))), 0.97)
          << "cast " << cast << " falloff " << falloff;
}

TEST(SpotMap, HoldsForAFewDotsAndForAMostlyDarkBelly) {
  for (const int spots : {3, 8, 90, 160}) {
    const cv::Mat1b truth = synthetic::spotted(12, spots).dark;
    EXPECT_GT(share_right(truth, make_spot_map(lit(truth, {0.8, 0.9, 1}, 0.7, 2))), 0.965)
        << spots << " spots";
  }
}

TEST(SpotMap, APlainBellyHasNoSpots) {
  const cv::Mat1b truth(kMapRows, kMapCols, uchar{0});
  EXPECT_EQ(cv::countNonZero(make_spot_map(lit(truth, {1, 1, 1}, 0.6, 3)).dark >= 128), 0);
}

TEST(SpotMap, WhatIsCoveredIsUnknownAndChangesNothingElse) {
  const cv::Mat1b truth = synthetic::spotted(13).dark;
  Strip strip = lit(truth, {1, 1, 1}, 0.4, 4);
  strip.valid({20, 100, 60, 120}).setTo(0);
  strip.bgr({20, 100, 60, 120}).setTo(cv::Scalar(255, 255, 255));
  const SpotMap map = make_spot_map(strip);
  EXPECT_EQ(map.valid(80, 25), 0);
  EXPECT_EQ(map.dark(80, 25), 0);
  EXPECT_EQ(map.valid(10, 25), 255);
  cv::Mat1b expected = truth.clone();
  expected.setTo(0, map.valid == 0);
  EXPECT_GT(share_right(expected, map), 0.97);
}

TEST(SpotMap, NothingValidIsNothingKnown) {
  Strip strip{cv::Mat3b(kStripRows, kStripCols, cv::Vec3b(9, 9, 9)),
              cv::Mat1b(kStripRows, kStripCols, uchar{0})};
  EXPECT_EQ(cv::countNonZero(make_spot_map(strip).valid), 0);
  const Pattern pattern = make_pattern(strip, 1);
  EXPECT_TRUE(pattern.spots.empty());
  for (const std::uint64_t word : pattern.code.known) EXPECT_EQ(word, 0U);
}

TEST(SpotMap, AStripOfAnotherSizeIsRefused) {
  Strip strip{cv::Mat3b(100, 100), cv::Mat1b(100, 100)};
  EXPECT_THROW(make_spot_map(strip), Error);
}

TEST(SpotMap, TurnedTwiceIsAsBefore) {
  const SpotMap map = synthetic::spotted(14);
  EXPECT_EQ(cv::countNonZero(turned(turned(map)).dark != map.dark), 0);
}

}  // namespace
}  // namespace evet
