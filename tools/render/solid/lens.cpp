#include "tools/render/solid/lens.h"

#include <Eigen/Geometry>

namespace evet::render::solid {

Lens::Lens(cv::Size size, float tilt, float tilt_towards, float distance, float bulge)
    : eye_(distance * Point(std::sin(tilt) * std::cos(tilt_towards), std::sin(tilt) * std::sin(tilt_towards),
                            std::cos(tilt))),
      ahead_(-eye_.normalized()),
      centre_(0.5F * static_cast<float>(size.width), 0.5F * static_cast<float>(size.height)),
      middle_(centre_),
      half_diagonal_(centre_.norm()),
      bulge_(bulge) {
  right_ = ahead_.cross(Point(0, 1, 0)).normalized();
  up_ = right_.cross(ahead_);
}

Point Lens::way_of(const Flat& pixel) const {
  const Flat out = (pixel - centre_) / half_diagonal_;
  const Flat flat = centre_ + (pixel - centre_) * (1 + bulge_ * out.squaredNorm()) - middle_;
  return (ahead_ * focal_px_ + right_ * flat[0] - up_ * flat[1]).normalized();
}

Flat Lens::pixel_of(const Point& place) const {
  const Point from = place - eye_;
  const float depth = std::max(1e-3F, from.dot(ahead_));
  const Flat flat = middle_ + Flat(from.dot(right_), -from.dot(up_)) * (focal_px_ / depth);
  Flat pixel = flat;
  for (int i = 0; i < 8; ++i)
    pixel = centre_ + (flat - centre_) / (1 + bulge_ * ((pixel - centre_) / half_diagonal_).squaredNorm());
  return pixel;
}

}  // namespace evet::render::solid
