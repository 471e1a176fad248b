#include "matcher/belly/find_scale_card.h"

#include <gtest/gtest.h>

#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include "tools/render/scene.h"

namespace evet {
namespace {

constexpr double kPrintPerMm = 10;

// The card as printed, from its geometry alone; white beyond the frame is not needed.
cv::Mat3b printed_card() {
  cv::Mat3b card(cvRound(kCardHeightMm * kPrintPerMm), cvRound(kCardWidthMm * kPrintPerMm),
                 cv::Vec3b(250, 250, 250));
  const double module = kSquareMm / kSquareModules;
  for (const CardSquare& square : card_squares())
    for (int row = 0; row < kSquareModules; ++row)
      for (int column = 0; column < kSquareModules; ++column)
        if (!is_white(square, row, column))
          cv::rectangle(card,
                        cv::Rect(cvRound((square.top_left_mm.x + column * module) * kPrintPerMm),
                                 cvRound((square.top_left_mm.y + row * module) * kPrintPerMm),
                                 cvRound(module * kPrintPerMm), cvRound(module * kPrintPerMm)),
                        cv::Scalar(15, 15, 15), cv::FILLED);
  return card;
}

// Lies in a rendered photo: turned about the card's middle, seen obliquely; `photo_from_mm` is the truth.
struct Scene {
  cv::Mat3b photo;
  cv::Matx33d photo_from_mm;
};

Scene scene(double px_per_mm, double turn_deg, double tilt, cv::Point2d middle,
            const cv::Mat3b& card = printed_card()) {
  render::CaptureSpec spec;
  spec.world_seed = 101;
  spec.size = {1200, 900};
  static const cv::Mat3b floor = render::render(spec).bgr;
  Scene out{floor.clone(), {}};
  const double a = turn_deg * CV_PI / 180, c = std::cos(a) * px_per_mm, s = std::sin(a) * px_per_mm;
  const cv::Matx33d centred(1, 0, -kCardWidthMm / 2, 0, 1, -kCardHeightMm / 2, 0, 0, 1);
  out.photo_from_mm = cv::Matx33d(1, 0, middle.x, 0, 1, middle.y, 0, 0, 1) *
                      cv::Matx33d(1, 0, 0, 0, 1, 0, tilt, -tilt / 2, 1) *
                      cv::Matx33d(c, -s, 0, s, c, 0, 0, 0, 1) * centred;
  const cv::Matx33d half(1, 0, -0.5, 0, 1, -0.5, 0, 0, 1);  // warping counts from pixel centres
  const cv::Matx33d warp =
      half * out.photo_from_mm * cv::Matx33d::diag({1 / kPrintPerMm, 1 / kPrintPerMm, 1}) * half.inv();
  cv::Mat3b soft = card, laid;
  cv::GaussianBlur(card, soft, {}, std::max(0.1, 0.4 * kPrintPerMm / px_per_mm));
  cv::Mat1b where;
  cv::warpPerspective(soft, laid, warp, out.photo.size(), cv::INTER_LINEAR);
  cv::warpPerspective(cv::Mat1b(card.size(), 255), where, warp, out.photo.size(), cv::INTER_LINEAR);
  laid.copyTo(out.photo, where > 250);
  return out;
}

// A bent curve beside the card, in its plane.
std::vector<cv::Point2d> curve_mm() {
  std::vector<cv::Point2d> mm;
  for (int i = 0; i <= 64; ++i) mm.emplace_back(-10 - 6 * std::sin(i / 64.0 * 3), i - 5.0);
  return mm;
}
double length(const std::vector<cv::Point2d>& curve) {
  double sum = 0;
  for (size_t i = 1; i < curve.size(); ++i) sum += cv::norm(curve[i] - curve[i - 1]);
  return sum;
}
std::vector<cv::Point2d> in_photo(const Scene& scene) {
  std::vector<cv::Point2d> px;
  cv::perspectiveTransform(curve_mm(), px, scene.photo_from_mm);
  return px;
}

void expect_right(const Scene& scene, size_t squares) {
  const auto card = find_scale_card(scene.photo);
  ASSERT_TRUE(card);
  EXPECT_EQ(card->seen.size(), squares);
  const LengthMm measured = measure_mm(*card, in_photo(scene));
  EXPECT_NEAR(measured.mm, length(curve_mm()), 0.01 * length(curve_mm()));
  EXPECT_GT(measured.error_mm, 0.005 * measured.mm);
  EXPECT_LT(measured.error_mm, 0.05 * measured.mm);
}

TEST(FindScaleCard, GivesLengthsToOnePercentAnyWayUp) {
  for (double turn : {0.0, 37.0, 90.0, 180.0, 251.0}) {
    SCOPED_TRACE(turn);
    expect_right(scene(4, turn, 0, {600, 450}), 4);
  }
}

TEST(FindScaleCard, GivesLengthsToOnePercentSeenObliquely) {
  for (double tilt : {-4e-4, 4e-4}) expect_right(scene(5, 20, tilt, {600, 450}), 4);
}

TEST(FindScaleCard, SmallInThePictureStillServes) {
  expect_right(scene(2.2, 15, 0, {600, 450}), 4);
}

TEST(FindScaleCard, HalfACardServesWithALargerError) {
  const Scene whole = scene(5, 0, 0, {600, 450}),
              half = scene(5, 0, 0, {1200, 450});  // cut by the picture's edge
  const auto all = find_scale_card(whole.photo), two = find_scale_card(half.photo);
  ASSERT_TRUE(all && two);
  EXPECT_EQ(two->seen, (std::vector<int>{0, 2}));
  const double wanted = length(curve_mm());
  const LengthMm by_two = measure_mm(*two, in_photo(half));
  EXPECT_NEAR(by_two.mm, wanted, 0.01 * wanted);
}

TEST(FindScaleCard, GlareOverOneSquareLeavesTheOthers) {
  Scene dazzled = scene(5, 10, 0, {600, 450});
  std::vector<cv::Point2d> at;
  cv::perspectiveTransform(std::vector<cv::Point2d>{{10, 10}}, at, dazzled.photo_from_mm);
  cv::Mat3b light = cv::Mat3b::zeros(dazzled.photo.size());
  cv::circle(light, at[0], 35, cv::Scalar::all(255), cv::FILLED);
  cv::GaussianBlur(light, light, {}, 8);
  dazzled.photo += light;
  expect_right(dazzled, 3);
}

TEST(FindScaleCard, OneSquareAloneIsNoCard) {
  EXPECT_FALSE(find_scale_card(scene(5, 0, 0, {1185, 880}).photo));
}

TEST(FindScaleCard, ACardInAMirrorIsNone) {
  cv::Mat3b mirrored;
  cv::flip(scene(5, 0, 0, {600, 450}).photo, mirrored, 1);
  EXPECT_FALSE(find_scale_card(mirrored));
}

TEST(FindScaleCard, SquaresThatDoNotLieAsOnTheCardAreNone) {
  cv::Mat3b card = printed_card();
  const cv::Rect first(30, 30, 140, 140);
  cv::Mat3b piece = card(first).clone();
  card(first).setTo(cv::Scalar::all(250));
  piece.copyTo(card(cv::Rect(300, 230, 140, 140)));
  EXPECT_FALSE(find_scale_card(scene(5, 0, 0, {600, 450}, card).photo));
}

TEST(FindScaleCard, PhotosWithoutACardHaveNone) {
  for (std::uint64_t seed = 101; seed < 109; ++seed) {
    render::CaptureSpec spec;
    spec.world_seed = seed;
    spec.size = {800, 600};
    spec.conditions.difficulty = render::Difficulty::hardest;
    EXPECT_FALSE(find_scale_card(render::render(spec).bgr)) << seed;
  }
  EXPECT_FALSE(find_scale_card({}));
}

}  // namespace
}  // namespace evet
