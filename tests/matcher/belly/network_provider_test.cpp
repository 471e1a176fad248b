#include "matcher/belly/network_provider.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/belly/belly_net.h"
#include "matcher/belly/fit_strip.h"
#include "tests/matcher/belly/analytic_belly.h"

namespace evet {
namespace {

// Knows the belly and answers any look at it truly, as the network would on a good day. Keeps what it was
// asked. Head and tail are discs before and behind the belly.
struct Oracle {
  const AnalyticBelly& belly;
  double weak_error = 0.02;  // of u, as told
  bool first_look_wrong_way = false, knows_parts = true;
  std::vector<cv::Matx23d> asked{};

  BodyCoordinates look(const cv::Matx23d& photo_from_look) {
    BodyCoordinates k;
    k.photo_from_grid = photo_from_look;
    for (int i = 0; i < 4; ++i) k.photo_from_grid(i / 2, i % 2) *= 2;
    k.p_belly = cv::Mat1f::zeros(128, 128);
    k.p_clear = cv::Mat1f::zeros(128, 128);
    k.error = cv::Mat1f(128, 128, static_cast<float>(weak_error));
    k.uv = cv::Mat2f::zeros(128, 128);
    for (cv::Mat1f* part : {&k.p_head, &k.p_fore_limb, &k.p_hind_limb, &k.p_tail})
      *part = cv::Mat1f::zeros(128, 128);
    const cv::Point2d head = belly.at(0, 0) - belly.tangent(0) * (0.14 * belly.length),
                      tail = belly.at(1, 0) + belly.tangent(1) * (0.25 * belly.length);
    for (int y = 0; y < 128; ++y)
      for (int x = 0; x < 128; ++x) {
        const cv::Vec2d p = k.photo_from_grid * cv::Vec3d(x + 0.5, y + 0.5, 1);
        double u = 0, v = 0;
        if (p[0] < 0 || p[1] < 0 || p[0] >= belly.picture.width || p[1] >= belly.picture.height) continue;
        if (!belly.find({p[0], p[1]}, u, v)) {
          if (!knows_parts) continue;
          if (cv::norm(cv::Point2d(p[0], p[1]) - head) < 0.8 * belly.half_width) k.p_head(y, x) = 0.95f;
          if (cv::norm(cv::Point2d(p[0], p[1]) - tail) < 0.8 * belly.half_width) k.p_tail(y, x) = 0.95f;
          continue;
        }
        if (cv::determinant(photo_from_look.get_minor<2, 2>(0, 0)) < 0) v = -v;  // a mirror: nobody can tell
        k.uv(y, x) = {static_cast<float>(u), static_cast<float>(v)};
        k.p_belly(y, x) = k.p_clear(y, x) = 0.95f;
      }
    if (first_look_wrong_way && asked.empty()) k = turned_end_for_end(k);
    asked.push_back(photo_from_look);
    return k;
  }
};

Photo grey_photo(cv::Size size) {
  Photo photo;
  photo.bgr = cv::Mat3b(size, cv::Vec3b(90, 90, 90));
  return photo;
}

double worst_landing(const AnalyticBelly& belly, const BodyCoordinates& k) {
  const auto fit = fit_strip(k);
  if (!fit) return 1e9;
  double worst = 0;
  for (double u = 0; u <= 1; u += 0.05)
    for (double v = -0.8; v < 0.9; v += 0.2)
      worst = std::max(worst, cv::norm(fit->photo_from_strip.at(u, v) - belly.at(u, v)) / belly.length);
  return worst;
}

TEST(NetworkProvider, TheSecondLookShowsTheBellyHeadUpAndAtFourFifths) {
  AnalyticBelly belly;
  belly.length = 260, belly.half_width = 36, belly.middle = {900, 300}, belly.picture = {1200, 800};
  belly.heading = [](double) { return 2.2; };
  belly.trace();
  Oracle oracle{belly};
  const BodyCoordinates k = coordinates_from_looks(
      grey_photo(belly.picture), [&](const cv::Mat3b&, const cv::Matx23d& at) { return oracle.look(at); });
  ASSERT_EQ(oracle.asked.size(), 4u);  // whole, close, wide, mirror: the head was plain to see
  const cv::Matx23d a = oracle.asked[1];
  const cv::Matx33d inverse =
      cv::Matx33d(a(0, 0), a(0, 1), a(0, 2), a(1, 0), a(1, 1), a(1, 2), 0, 0, 1).inv();
  const cv::Point2d head = belly.at(0, 0), vent = belly.at(1, 0);
  const cv::Vec3d h = inverse * cv::Vec3d(head.x, head.y, 1), t = inverse * cv::Vec3d(vent.x, vent.y, 1);
  EXPECT_NEAR(h[0], 128, 3);
  EXPECT_NEAR(t[0], 128, 3);
  EXPECT_NEAR(t[1] - h[1], 0.8 * kLookSide, 4);
  EXPECT_NEAR((t[1] + h[1]) / 2, 128, 3);
  EXPECT_GT(k.confidence, 0.9);
  EXPECT_GT(k.p_head_right, 0.99);  // sure enough that nothing was looked at twice
  EXPECT_LT(worst_landing(belly, k), 0.005);
}

TEST(NetworkProvider, TheLastLookIsTheMirrorOfTheOneBefore) {
  const AnalyticBelly belly = arc_belly(40);
  Oracle oracle{belly};
  coordinates_from_looks(grey_photo(belly.picture),
                         [&](const cv::Mat3b&, const cv::Matx23d& at) { return oracle.look(at); });
  const cv::Matx23d a = oracle.asked[1], b = oracle.asked.back();
  for (double y : {0.0, 100.0})
    for (double x : {0.0, 30.0, 256.0}) {
      const cv::Vec2d here = a * cv::Vec3d(x, y, 1), there = b * cv::Vec3d(kLookSide - x, y, 1);
      EXPECT_NEAR(here[0], there[0], 1e-9);
      EXPECT_NEAR(here[1], there[1], 1e-9);
    }
}

TEST(NetworkProvider, AFirstLookThatTookTheTailForTheHeadIsPutRight) {
  const AnalyticBelly belly = arc_belly(50);
  Oracle oracle{belly};
  oracle.first_look_wrong_way = true;
  const BodyCoordinates k = coordinates_from_looks(
      grey_photo(belly.picture), [&](const cv::Mat3b&, const cv::Matx23d& at) { return oracle.look(at); });
  EXPECT_EQ(oracle.asked.size(), 6u);
  EXPECT_GT(k.p_head_right, 0.9);
  EXPECT_LT(worst_landing(belly, k), 0.006);
}

TEST(NetworkProvider, VagueCoordinatesAreAskedTwiceAndOwnedTo) {
  const AnalyticBelly belly = straight_belly();
  Oracle oracle{belly};
  oracle.weak_error = 0.4, oracle.knows_parts = false;
  const BodyCoordinates k = coordinates_from_looks(
      grey_photo(belly.picture), [&](const cv::Mat3b&, const cv::Matx23d& at) { return oracle.look(at); });
  EXPECT_EQ(oracle.asked.size(), 6u);
  EXPECT_LT(k.p_head_right, 0.95);
}

TEST(NetworkProvider, NothingSeenIsNothingFound) {
  AnalyticBelly belly = straight_belly();
  belly.middle = {-5000, -5000};
  belly.trace();
  Oracle oracle{belly};
  const BodyCoordinates k = coordinates_from_looks(
      grey_photo(belly.picture), [&](const cv::Mat3b&, const cv::Matx23d& at) { return oracle.look(at); });
  EXPECT_LT(k.confidence, 0.1);
  EXPECT_EQ(oracle.asked.size(), 1u);
}

TEST(TakeLook, IsTheTrueMeanOfThePhotoAndGreyBeyondIt) {
  cv::Mat3b photo(1024, 2048, cv::Vec3b(0, 0, 0));
  for (int x = 0; x < photo.cols; x += 2)
    photo.col(x).setTo(cv::Scalar(200, 100, 50));  // finer than the look
  const cv::Mat3b look = take_look(photo, {8, 0, 0, 0, 8, -512});
  EXPECT_EQ(look(10, 128), cv::Vec3b(128, 128, 128));
  EXPECT_NEAR(look(128, 128)[0], 100, 3);
  EXPECT_NEAR(look(128, 128)[2], 25, 2);
}

TEST(TakeLook, LandsToATenthOfAPixelWhenTurnedAndScaled) {
  cv::Mat3b photo(900, 1200, cv::Vec3b(0, 0, 0));
  const cv::Point2d centre(700.5, 300.5);
  cv::circle(photo, cv::Point(700, 300), 25, cv::Scalar::all(255), cv::FILLED);
  const double s = 2.5, a = 0.7;
  const cv::Matx23d to_photo(s * std::cos(a), -s * std::sin(a), 500, s * std::sin(a), s * std::cos(a), 20);
  const cv::Mat3b look = take_look(photo, to_photo);
  double mass = 0;
  cv::Point2d mean;
  for (int y = 0; y < look.rows; ++y)
    for (int x = 0; x < look.cols; ++x) {
      const cv::Vec2d p = to_photo * cv::Vec3d(x + 0.5, y + 0.5, 1);
      if (p[0] < 5 || p[1] < 5 || p[1] > 890) continue;  // grey beyond the picture
      mass += look(y, x)[0], mean += cv::Point2d(x + 0.5, y + 0.5) * look(y, x)[0];
    }
  const cv::Vec2d back = to_photo * cv::Vec3d(mean.x / mass, mean.y / mass, 1);
  EXPECT_NEAR(back[0], centre.x, 0.25);
  EXPECT_NEAR(back[1], centre.y, 0.25);
}

TEST(BellyNet, BytesThatAreNoNetworkAreRefused) {
  const std::vector<std::byte> nonsense(1000, std::byte{0x5a});
  EXPECT_THROW(BellyNet{nonsense}, Error);
}

}  // namespace
}  // namespace evet
