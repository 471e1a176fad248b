// A midline that somebody drew, or says to have drawn: what is looked at grows with the picture, never with
// the numbers. One of 200,000 pixels took minutes and gigabytes.
#include "matcher/belly/midline_provider.h"

#include <gtest/gtest.h>

#include <limits>

#include "matcher/base/error.h"

namespace evet {
namespace {

Photo blank() {
  Photo photo;
  photo.bgr = cv::Mat3b(300, 400, cv::Vec3b(60, 120, 200));
  return photo;
}

TEST(Midline, InThePictureIsTaken) {
  const BodyCoordinates k = coordinates_from_midline(blank(), {{200, 40}, {210, 150}, {190, 260}});
  EXPECT_EQ(std::string(k.source), "midline");
  EXPECT_NO_THROW(coordinates_from_midline(blank(), {{200, -20}, {200, 310}}))
      << "a hand slips over the edge";
}

TEST(Midline, BeyondThePictureIsRefused) {
  const double none = std::numeric_limits<double>::quiet_NaN(),
               endless = std::numeric_limits<double>::infinity();
  for (const std::vector<cv::Point2d>& points : {std::vector<cv::Point2d>{{-100000, 300}, {100000, 300}},
                                                 {{200, -1e9}, {200, 1e9}},
                                                 {{200, 40}, {200, 500}},
                                                 {{none, 40}, {200, 260}},
                                                 {{200, 40}, {200, endless}}})
    EXPECT_THROW(coordinates_from_midline(blank(), points), Error);
}

TEST(Midline, LongerThanAnyBellyIsRefused) {
  std::vector<cv::Point2d> back_and_forth;
  for (int i = 0; i < 60; ++i) back_and_forth.emplace_back(i % 2 == 0 ? 5 : 395, 5 + 4 * i);
  EXPECT_THROW(coordinates_from_midline(blank(), back_and_forth), Error);
  std::vector<cv::Point2d> many;
  for (size_t i = 0; i <= kMostMidlinePoints; ++i) many.emplace_back(200, 20 + static_cast<double>(i));
  EXPECT_THROW(coordinates_from_midline(blank(), many), Error);
  EXPECT_THROW(coordinates_from_midline(blank(), {{200, 40}, {200, 40}}), Error);
}

}  // namespace
}  // namespace evet
