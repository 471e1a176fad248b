#include "matcher/belly/find_belly.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/belly/fit_strip.h"
#include "matcher/belly/sample_strip.h"
#include "tests/matcher/belly/analytic_belly.h"

namespace evet {
namespace {

double paint(double u, double v) {
  return 128 + 60 * std::sin(12 * u) + 50 * std::sin(5 * v + 3 * u);
}

double mean_difference(const Strip& strip, double skip_rim = 0.04) {
  double sum = 0;
  int n = 0;
  for (int r = 0; r < kStripRows; ++r)
    for (int c = 0; c < kStripCols; ++c) {
      const double u = (r + 0.5) / kStripRows, v = (c + 0.5) / kStripCols * 2 - 1;
      if (!strip.valid(r, c) || u < skip_rim || u > 1 - skip_rim || std::abs(v) > 1 - 2 * skip_rim) continue;
      sum += std::abs(strip.bgr(r, c)[0] - paint(u, v));
      ++n;
    }
  EXPECT_GT(n, 20000);
  return n > 0 ? sum / n : 255;
}

TEST(Straighten, TheSkinsPatternComesBackOnTheStrip) {
  AnalyticBelly rolled = arc_belly(70);
  rolled.roll_angle = 0.6;
  for (const AnalyticBelly& belly : {straight_belly(), arc_belly(90), s_belly(90), rolled}) {
    const BellyFinding finding = strip_from_coordinates(belly.photo(paint), belly.coordinates());
    ASSERT_TRUE(finding.strip);
    EXPECT_LT(mean_difference(*finding.strip), 4);
    double length = 0;  // of the line v = 0, which a roll on a bend makes longer or shorter than the axis
    for (int i = 0; i < 64; ++i) length += cv::norm(belly.at((i + 1) / 64.0, 0) - belly.at(i / 64.0, 0));
    EXPECT_NEAR(finding.shape.length_px, length, 0.01 * length);
  }
}

TEST(Straighten, SkinBehindTheHorizonIsNotValid) {
  AnalyticBelly rolled = straight_belly();
  rolled.roll_angle = 0.9;  // v above about 0.5 has turned away
  const BellyFinding finding = strip_from_coordinates(rolled.photo(paint), rolled.coordinates());
  ASSERT_TRUE(finding.strip);
  int left = 0, right = 0;
  for (int r = 0; r < kStripRows; ++r)
    for (int c = 0; c < kStripCols; ++c) {
      const double v = (c + 0.5) / kStripCols * 2 - 1;
      if (v > 0.7) right += finding.strip->valid(r, c) != 0;
      if (v < -0.7) left += finding.strip->valid(r, c) != 0;
    }
  EXPECT_GT(left, 0.8 * 0.15 * kStripRows * kStripCols);
  EXPECT_LT(right, 0.1 * 0.15 * kStripRows * kStripCols);
  EXPECT_LT(mean_difference(*finding.strip), 5);
  EXPECT_LT(finding.shape.roll, -0.2);
}

TEST(Straighten, ALargePhotoDoesNotAlias) {
  // Fine stripes, far below the canvas's resolution, must become their mean and not beat against the canvas.
  AnalyticBelly belly = straight_belly();
  belly.length = 3200, belly.half_width = 440, belly.middle = {1700, 1700}, belly.picture = {3400, 3400};
  belly.trace();
  Photo photo;
  photo.bgr = cv::Mat3b(belly.picture);
  for (int y = 0; y < photo.bgr.rows; ++y) photo.bgr.row(y).setTo(cv::Scalar::all(y % 2 ? 255 : 0));
  const auto fit = fit_strip(belly.coordinates());
  ASSERT_TRUE(fit);
  const cv::Mat3b strip = straighten(photo.bgr, fit->photo_from_strip, {kStripCols, kStripRows});
  cv::Scalar mean, spread;
  cv::meanStdDev(strip, mean, spread);
  EXPECT_NEAR(mean[0], 127.5, 3);
  EXPECT_LT(spread[0], 12);
}

TEST(Straighten, ACropTakesOnlyItsOwnPartOutOfTheMask) {
  AnalyticBelly belly = straight_belly();
  belly.middle = {500, 850};  // the last 150 of 600 pixels are below the picture's edge
  belly.trace();
  const BellyFinding finding = strip_from_coordinates(belly.photo(paint), belly.coordinates());
  ASSERT_TRUE(finding.strip);
  EXPECT_NEAR(finding.quality.seen_share, 0.75, 0.06);
  EXPECT_EQ(cv::countNonZero(finding.strip->valid.rowRange(400, kStripRows)), 0);
  EXPECT_LT(mean_difference(*finding.strip), 4);
}

TEST(Straighten, GlareLeavesTheMask) {
  const AnalyticBelly belly = straight_belly();
  Photo photo = belly.photo(paint);
  cv::circle(photo.bgr, {500, 500}, 40, cv::Scalar::all(255), cv::FILLED);
  const BellyFinding finding = strip_from_coordinates(photo, belly.coordinates());
  ASSERT_TRUE(finding.strip);
  EXPECT_EQ(finding.strip->valid(kStripRows / 2, kStripCols / 2), 0);
  EXPECT_GT(finding.quality.glare_share, 0.03);
  EXPECT_LT(finding.quality.glare_share, 0.12);
}

UnseenShares unseen_of(const AnalyticBelly& belly, const Photo& photo, const BodyCoordinates& coordinates) {
  const BellyFinding finding = strip_from_coordinates(photo, coordinates);
  return unseen_shares(belly.picture, finding.fit->photo_from_strip, finding.coordinates, *finding.strip);
}

TEST(Straighten, WhatIsNotSeenIsToldApartByItsCause) {
  AnalyticBelly cropped = straight_belly();
  cropped.middle = {500, 850};  // a quarter lies below the picture's edge
  cropped.trace();
  const UnseenShares outside = unseen_of(cropped, cropped.photo(paint), cropped.coordinates());
  EXPECT_NEAR(outside.outside, 0.25, 0.04);
  EXPECT_LT(outside.covered + outside.elsewhere + outside.glare, 0.1);

  const AnalyticBelly belly = straight_belly();
  BodyCoordinates under_leaf = belly.coordinates();
  under_leaf.p_clear.rowRange(0, under_leaf.p_clear.rows / 2) = 0.f;  // the belly lies in the middle
  const UnseenShares covered = unseen_of(belly, belly.photo(paint), under_leaf);
  EXPECT_NEAR(covered.covered, 0.5, 0.08);
  EXPECT_LT(covered.outside + covered.glare, 0.02);

  Photo lit = belly.photo(paint);
  cv::circle(lit.bgr, {500, 500}, 40, cv::Scalar::all(255), cv::FILLED);
  EXPECT_GT(unseen_of(belly, lit, belly.coordinates()).glare, 0.03);
}

TEST(FindBelly, AUsersMidlineOverridesAll) {
  const AnalyticBelly belly = arc_belly(60);
  // Orange skin with dark spots on grey, so that the width can be told by colour.
  Photo photo;
  photo.bgr = cv::Mat3b(belly.picture, cv::Vec3b(110, 112, 108));
  for (int y = 0; y < photo.bgr.rows; ++y)
    for (int x = 0; x < photo.bgr.cols; ++x) {
      double u = 0, v = 0;
      if (!belly.find({x + 0.5, y + 0.5}, u, v)) continue;
      const bool spot = std::sin(25 * u) * std::sin(7 * v) > 0.5;
      photo.bgr(y, x) = spot ? cv::Vec3b(30, 32, 35) : cv::Vec3b(40, 140, 230);
    }
  BellyOptions options;
  photo.full_per_px = 2;  // decoded at half size: the user's points are in full-size pixels
  for (double u : {0.0, 0.3, 0.6, 1.0}) options.midline.push_back(belly.at(u, 0) * 2);
  const BellyFinding finding = find_belly(photo, options);
  ASSERT_TRUE(finding.strip);
  EXPECT_EQ(finding.coordinates.source, "midline");
  EXPECT_NEAR(finding.shape.length_px, 2 * belly.length, 0.02 * 2 * belly.length);
  for (int i = 0; i <= 64; i += 8) {
    const cv::Point2d e = finding.shape.midline[i] - belly.at(i / 64.0, 0);
    EXPECT_LT(std::hypot(e.x, e.y), 0.015 * belly.length) << i;
  }
  const cv::Point2d left = finding.shape.left_edge[32] - finding.shape.midline[32];
  EXPECT_NEAR(std::hypot(left.x, left.y), belly.half_width, 0.2 * belly.half_width);
  // The other way round is another strip: the head is where the user says.
  std::reverse(options.midline.begin(), options.midline.end());
  const BellyFinding turned = find_belly(photo, options);
  ASSERT_TRUE(turned.strip);
  EXPECT_LT(cv::norm(turned.shape.midline.front() - finding.shape.midline.back()), 10);
}

TEST(FindBelly, AMidlineThatIsNoneIsRefused) {
  const Photo photo = straight_belly().photo(paint);
  BellyOptions options;
  options.midline = {{1, 1}};
  EXPECT_THROW(find_belly(photo, options), Error);
  options.midline = {{5, 5}, {5, 5}};
  EXPECT_THROW(find_belly(photo, options), Error);
  options.midline = {{-500, -500}, {-100, -100}};
  EXPECT_THROW(find_belly(photo, options), Error);
  options.midline = {{0, 0}, {NAN, 3}};
  EXPECT_THROW(find_belly(photo, options), Error);
  EXPECT_THROW(find_belly(Photo{}), Error);
}

TEST(FindBelly, PicturesWithoutABellySayNoBelly) {
  for (int kind = 0; kind < 4; ++kind) {
    Photo photo;
    photo.bgr = cv::Mat3b(480, 640, cv::Vec3b(120, 120, 120));
    if (kind == 1) cv::randu(photo.bgr, 0, 255);
    if (kind == 2) photo.bgr.setTo(cv::Scalar(30, 120, 220));  // all orange
    if (kind == 3) photo.bgr = cv::Mat3b(1, 1, cv::Vec3b(0, 0, 0));
    const BellyFinding finding = find_belly(photo);
    EXPECT_FALSE(finding.usable()) << kind;
    ASSERT_FALSE(finding.notes.empty()) << kind;
    EXPECT_TRUE(finding.notes.front().blocks) << kind;
    EXPECT_FALSE(finding.notes.front().sentence.empty());
  }
}

}  // namespace
}  // namespace evet
