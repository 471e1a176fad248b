#include "matcher/belly/overlap.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace evet {
namespace {

constexpr int kCellsAlong = 128;  // points along the photo's longer side

cv::Mat1b belly_in_photo(const BodyCoordinates& k, cv::Size photo, cv::Size grid) {
  if (k.p_belly.empty()) return cv::Mat1b::zeros(grid);
  const double step_x = static_cast<double>(photo.width) / grid.width,
               step_y = static_cast<double>(photo.height) / grid.height;
  cv::Matx23d inverse;
  cv::invertAffineTransform(k.photo_from_grid, inverse);
  cv::Mat1b out(grid);
  for (int y = 0; y < grid.height; ++y)
    for (int x = 0; x < grid.width; ++x) {
      const cv::Vec2d at = inverse * cv::Vec3d((x + 0.5) * step_x, (y + 0.5) * step_y, 1);
      const int gx = cvFloor(at[0]), gy = cvFloor(at[1]);
      const bool inside = gx >= 0 && gy >= 0 && gx < k.p_belly.cols && gy < k.p_belly.rows;
      out(y, x) = inside && k.p_belly(gy, gx) >= 0.5f ? 255 : 0;
    }
  return out;
}

}  // namespace

double belly_overlap(const BodyCoordinates& one, const BodyCoordinates& other, cv::Size photo) {
  const double shrink = static_cast<double>(kCellsAlong) / std::max(photo.width, photo.height);
  const cv::Size grid(std::max(1, cvRound(photo.width * shrink)),
                      std::max(1, cvRound(photo.height * shrink)));
  const cv::Mat1b a = belly_in_photo(one, photo, grid), b = belly_in_photo(other, photo, grid);
  const double any = cv::countNonZero(a | b);
  return any > 0 ? cv::countNonZero(a & b) / any : 0;
}

}  // namespace evet
