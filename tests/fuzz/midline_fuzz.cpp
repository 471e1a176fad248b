// Any points as a midline on a small picture: an Error, or body coordinates, soon.
#include <cstdint>
#include <cstring>
#include <opencv2/imgproc.hpp>
#include <vector>

#include "matcher/base/error.h"
#include "matcher/belly/midline_provider.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace evet;
  static const Photo photo = [] {
    Photo made;
    made.bgr = cv::Mat3b(60, 80, cv::Vec3b(60, 120, 200));
    cv::rectangle(made.bgr, {30, 5, 14, 50}, {20, 40, 60}, cv::FILLED);
    return made;
  }();
  // The first byte chooses: numbers of any size, or sixteenths of a pixel about the picture.
  if (size < 2) return 0;
  std::vector<cv::Point2d> points;
  if (data[0] % 2 == 0)
    for (std::size_t at = 1; at + 16 <= size && points.size() < 300; at += 16) {
      double both[2];
      std::memcpy(both, data + at, 16);
      points.emplace_back(both[0], both[1]);
    }
  else
    for (std::size_t at = 1; at + 4 <= size && points.size() < 300; at += 4) {
      std::int16_t both[2];
      std::memcpy(both, data + at, 4);
      points.emplace_back(both[0] / 16.0, both[1] / 16.0);
    }
  try {
    coordinates_from_midline(photo, points);
  } catch (const Error&) {
  }
  return 0;
}
