#include "matcher/belly/fit_strip.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "matcher/base/error.h"
#include "tests/matcher/belly/analytic_belly.h"

namespace evet {
namespace {

// Distance between where the map lays a skin point and where it is, in belly lengths, over the skin that
// faces the camera.
std::vector<double> landing_errors(const AnalyticBelly& belly, const StripMap& map, double u_from = 0,
                                   double u_to = 1) {
  std::vector<double> out;
  for (int i = 0; i <= 40; ++i)
    for (int j = -9; j <= 9; ++j) {
      const double u = u_from + (u_to - u_from) * i / 40, v = j / 10.0;
      if (!belly.faces(v)) continue;
      const cv::Point2d e = map.at(u, v) - belly.at(u, v);
      out.push_back(std::hypot(e.x, e.y) / belly.length);
    }
  std::sort(out.begin(), out.end());
  return out;
}
double median(const std::vector<double>& sorted) {
  return sorted[sorted.size() / 2];
}
double p95(const std::vector<double>& sorted) {
  return sorted[sorted.size() * 95 / 100];
}

void disturb(BodyCoordinates& k, double sigma_u, unsigned seed) {
  std::mt19937 random(seed);
  std::normal_distribution<float> noise(0, 1);
  for (cv::Vec2f& uv : k.uv)
    uv += cv::Vec2f(noise(random) * static_cast<float>(sigma_u),
                    noise(random) * static_cast<float>(kVErrorPerU * sigma_u));
}

struct Case {
  const char* name;
  AnalyticBelly belly;
};
std::vector<Case> cases() {
  AnalyticBelly rolled = straight_belly(), rolled_arc = arc_belly(60);
  rolled.roll_angle = 0.6;  // hides a quarter of the width
  rolled_arc.roll_angle = -0.6;
  AnalyticBelly upside_down = straight_belly();
  upside_down.heading = [](double) { return 3.0; };
  upside_down.trace();
  return {{"straight", straight_belly()}, {"arc 90", arc_belly(90)}, {"arc -90", arc_belly(-90)},
          {"S 90", s_belly(90)},          {"rolled", rolled},        {"rolled arc", rolled_arc},
          {"upside down", upside_down}};
}

TEST(FitStrip, ExactCoordinatesLandWithinHalfAPercentOfLength) {
  for (const Case& c : cases()) {
    const auto fit = fit_strip(c.belly.coordinates());
    ASSERT_TRUE(fit) << c.name;
    const auto errors = landing_errors(c.belly, fit->photo_from_strip);
    EXPECT_LT(median(errors), 0.0025) << c.name;
    EXPECT_LT(p95(errors), 0.005) << c.name;
    EXPECT_LT(fit->folded_share, 0.005) << c.name;
    EXPECT_GT(fit->inlier_share, 0.9) << c.name;
  }
}

TEST(FitStrip, NoiseAveragesOut) {
  for (const Case& c : cases()) {
    BodyCoordinates k = c.belly.coordinates();
    disturb(k, 0.02, 1);
    const auto fit = fit_strip(k);
    ASSERT_TRUE(fit) << c.name;
    const auto errors = landing_errors(c.belly, fit->photo_from_strip);
    EXPECT_LT(median(errors), 0.008) << c.name;
    EXPECT_LT(p95(errors), 0.025) << c.name;
  }
}

TEST(FitStrip, AFingerOverTheMiddleAndAWrongPatchAreBridged) {
  for (const Case& c : cases()) {
    BodyCoordinates k = c.belly.coordinates();
    disturb(k, 0.01, 2);
    for (int y = 0; y < k.uv.rows; ++y)
      for (int x = 0; x < k.uv.cols; ++x) {
        cv::Vec2f& uv = k.uv(y, x);
        if (uv[0] > 0.4 && uv[0] < 0.55) k.p_belly(y, x) = 0;                   // a finger
        if (uv[0] > 0.7 && uv[0] < 0.8 && uv[1] > 0) uv = {1 - uv[0], -uv[1]};  // told the other way round
      }
    const auto fit = fit_strip(k);
    ASSERT_TRUE(fit) << c.name;
    const auto errors = landing_errors(c.belly, fit->photo_from_strip);
    EXPECT_LT(median(errors), 0.008) << c.name;
    EXPECT_LT(p95(errors), 0.025) << c.name;
  }
}

TEST(FitStrip, ACroppedVentLeavesTheRestInPlace) {
  AnalyticBelly belly = arc_belly(40);
  BodyCoordinates k = belly.coordinates();
  for (int y = 0; y < k.uv.rows; ++y)
    for (int x = 0; x < k.uv.cols; ++x)
      if (k.uv(y, x)[0] > 0.75f) k.p_belly(y, x) = 0;
  const auto fit = fit_strip(k);
  ASSERT_TRUE(fit);
  EXPECT_LT(p95(landing_errors(belly, fit->photo_from_strip, 0, 0.74)), 0.006);
  EXPECT_LT(p95(landing_errors(belly, fit->photo_from_strip, 0.74, 1)), 0.06);  // carried on, not measured
  EXPECT_NEAR(fit->u_to, 0.75, 0.02);
}

TEST(FitStrip, ASecondRegionThatTellsAnotherStoryIsLeftOut) {
  const AnalyticBelly belly = straight_belly();
  BodyCoordinates k = belly.coordinates();
  for (int y = 10; y < 60; ++y)
    for (int x = 4; x < 16; ++x) k.p_belly(y, x) = 0.9f, k.uv(y, x) = {0.02f * (y - 10), 0.1f * (x - 10)};
  const auto fit = fit_strip(k);
  ASSERT_TRUE(fit);
  EXPECT_LT(p95(landing_errors(belly, fit->photo_from_strip)), 0.005);
  EXPECT_LT(fit->inlier_share, 0.93);
}

TEST(FitStrip, TurnedEndForEndGivesTheSameMapReadBackwards) {
  const AnalyticBelly belly = s_belly(70);
  const BodyCoordinates k = belly.coordinates();
  const auto fit = fit_strip(k), turned = fit_strip(turned_end_for_end(k));
  ASSERT_TRUE(fit && turned);
  for (double u : {0.0, 0.3, 0.8})
    for (double v : {-0.8, 0.0, 0.8}) {
      const cv::Point2d e = fit->photo_from_strip.at(u, v) - turned->photo_from_strip.at(1 - u, -v);
      EXPECT_LT(std::hypot(e.x, e.y), 0.01 * belly.length);
    }
}

TEST(FitStrip, SaysNothingOfNothing) {
  EXPECT_FALSE(fit_strip(BodyCoordinates{}));
  BodyCoordinates empty = straight_belly().coordinates();
  empty.p_belly.setTo(0);
  EXPECT_FALSE(fit_strip(empty));
}

TEST(FitStrip, SameInputSameBits) {
  BodyCoordinates k = s_belly(90).coordinates();
  disturb(k, 0.02, 3);
  const auto one = fit_strip(k), two = fit_strip(k);
  ASSERT_TRUE(one && two);
  EXPECT_EQ(one->photo_from_strip.c, two->photo_from_strip.c);
}

TEST(FitStrip, RefusesOptionsThatMeanNothing) {
  FitOptions options;
  options.min_p_belly = 0;
  EXPECT_THROW(options.check(), Error);
  options = {};
  options.iterations = 0;
  EXPECT_THROW(options.check(), Error);
  options = {};
  options.loss_scale = -1;
  EXPECT_THROW(options.check(), Error);
}

// The map's own derivative against central differences.
TEST(StripMap, JacobianIsTheDerivative) {
  const auto fit = fit_strip(s_belly(90).coordinates());
  ASSERT_TRUE(fit);
  const StripMap& map = fit->photo_from_strip;
  const double h = 1e-5;
  for (double u : {0.05, 0.31, 0.77})
    for (double v : {-0.9, 0.1, 0.6}) {
      const cv::Matx22d j = map.jacobian(u, v);
      const cv::Point2d du = (map.at(u + h, v) - map.at(u - h, v)) / (2 * h);
      const cv::Point2d dv = (map.at(u, v + h) - map.at(u, v - h)) / (2 * h);
      EXPECT_NEAR(j(0, 0), du.x, 1e-3);
      EXPECT_NEAR(j(1, 0), du.y, 1e-3);
      EXPECT_NEAR(j(0, 1), dv.x, 1e-3);
      EXPECT_NEAR(j(1, 1), dv.y, 1e-3);
    }
}

}  // namespace
}  // namespace evet
