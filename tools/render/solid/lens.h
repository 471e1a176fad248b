// A pinhole camera that looks down on the ground, with a little barrel or cushion distortion.
#pragma once
#include <opencv2/core.hpp>

#include "tools/render/solid/shapes.h"

namespace evet::render::solid {

class Lens {
 public:
  Lens(cv::Size size, float tilt, float tilt_towards, float distance, float bulge);
  const Point& eye() const { return eye_; }
  Point way_of(const Flat& pixel) const;  // direction of length 1 of the ray through a place of the picture
  Flat pixel_of(const Point& place) const;
  void set_focal(float focal_px) { focal_px_ = focal_px; }
  float focal() const { return focal_px_; }
  void shift(const Flat& pixels) { middle_ += pixels; }  // moves the picture's contents
  float diagonal() const { return 2 * half_diagonal_; }

 private:
  Point eye_, right_, up_, ahead_;
  Flat centre_, middle_;  // of the picture; where the axis meets it
  float focal_px_ = 500, half_diagonal_, bulge_;
};

}  // namespace evet::render::solid
