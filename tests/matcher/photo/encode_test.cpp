#include "matcher/photo/encode.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/photo/decode.h"

namespace evet {
namespace {

cv::Mat3b smooth_picture() {
  cv::Mat3b picture(37, 61);
  for (int y = 0; y < picture.rows; ++y)
    for (int x = 0; x < picture.cols; ++x)
      picture(y, x) =
          cv::Vec3b(static_cast<uchar>(4 * x), static_cast<uchar>(6 * y), static_cast<uchar>(255 - 4 * x));
  return picture;
}

TEST(Encode, APngComesBackBitForBit) {
  const cv::Mat3b picture = smooth_picture();
  const cv::Mat3b back = decode_photo(encode_png(picture), "picture").bgr;
  EXPECT_EQ(cv::norm(picture, back, cv::NORM_INF), 0);
  const cv::Mat3b part = picture(cv::Rect(3, 4, 20, 11));  // rows that do not touch
  EXPECT_EQ(cv::norm(part, decode_photo(encode_png(part), "part").bgr, cv::NORM_INF), 0);
}

TEST(Encode, AJpegComesBackNearlyAndItsColoursInOrder) {
  const cv::Mat3b picture = smooth_picture();
  const cv::Mat3b back = decode_photo(encode_jpeg(picture, 95), "picture").bgr;
  ASSERT_EQ(back.size(), picture.size());
  EXPECT_LT(cv::norm(picture, back, cv::NORM_L1) / static_cast<double>(picture.total() * 3), 4);
}

TEST(Encode, GreyIsTakenToo) {
  cv::Mat1b grey;
  cv::cvtColor(smooth_picture(), grey, cv::COLOR_BGR2GRAY);
  EXPECT_EQ(decode_photo(encode_png(grey), "grey").bgr(5, 7)[1], grey(5, 7));
  EXPECT_NEAR(decode_photo(encode_jpeg(grey), "grey").bgr(5, 7)[1], grey(5, 7), 6);
}

TEST(Encode, WhatIsNoPictureIsRefused) {
  EXPECT_THROW(encode_png(cv::Mat()), Error);
  EXPECT_THROW(encode_jpeg(cv::Mat()), Error);
  EXPECT_THROW(encode_png(cv::Mat(3, 3, CV_32F)), Error);
  EXPECT_THROW(encode_jpeg(smooth_picture(), 0), Error);
  EXPECT_THROW(encode_jpeg(cv::Mat3b(70000, 1)), Error);  // JPEG ends at 65500
}

}  // namespace
}  // namespace evet
