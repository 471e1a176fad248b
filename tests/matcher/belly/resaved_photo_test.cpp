// A photo and its re-saved copies give the same strip to within one grey level: what is seen must not hang on
// how a file was stored. Rendered at 12 megapixels, tuning seed.
#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>
#include <span>

#include "matcher/pattern/examine.h"
#include "tools/render/scene.h"

namespace evet {
namespace {

Strip strip_of(const cv::Mat3b& picture, int quality, int orientation) {
  const auto file = render::to_camera_jpeg(picture, quality, orientation, "2031-05-14T22:41:07");
  const Photo photo = decode_photo(std::as_bytes(std::span(file)), "photo.jpg", ExamineOptions{}.decode);
  const BellyFinding finding = find_belly(photo);
  EXPECT_TRUE(finding.strip);
  return finding.strip.value_or(
      Strip{cv::Mat3b::zeros(kStripRows, kStripCols), cv::Mat1b::zeros(kStripRows, kStripCols)});
}

// Mean absolute difference over the channels, where both see skin plainly.
double difference(const Strip& a, const Strip& b) {
  cv::Mat apart;
  cv::absdiff(a.bgr, b.bgr, apart);
  const cv::Mat1b both = a.valid & b.valid;
  EXPECT_GT(cv::countNonZero(both), 0.97 * cv::countNonZero(a.valid));
  const cv::Scalar mean = cv::mean(apart, both);
  return (mean[0] + mean[1] + mean[2]) / 3;
}

TEST(ResavedPhoto, GivesTheSameStripToWithinOneGreyLevel) {
  render::CaptureSpec spec;
  spec.world_seed = 180;
  spec.conditions.difficulty = render::Difficulty::middle;
  spec.individual = 1;
  spec.size = {4000, 3000};
  const cv::Mat3b picture = render::render(spec).bgr;
  const Strip original = strip_of(picture, 95, 1);
  EXPECT_LT(difference(original, strip_of(picture, 85, 1)), 1) << "quality 85";
  cv::Mat3b half;
  cv::resize(picture, half, {}, 0.5, 0.5, cv::INTER_AREA);
  EXPECT_LT(difference(original, strip_of(half, 95, 1)), 1) << "half size";
  for (int orientation = 2; orientation <= 8; ++orientation)
    EXPECT_LT(difference(original, strip_of(picture, 95, orientation)), 1) << "orientation " << orientation;
}

}  // namespace
}  // namespace evet
