// A pinhole camera above the floor, tilted, with radial lens distortion.
#pragma once
#include <opencv2/core.hpp>

#include "tools/render/vec.h"

namespace evet::render {

struct Camera {
  cv::Size size{640, 480};
  double tilt_rad = 0,
         tilt_azimuth_rad = 0;  // the camera leans over, about an axis at this angle in the floor
  double distance = 5;          // to the world's origin, belly lengths
  double focal_px = 500;
  cv::Point2d shift;      // crop: added to the normalised picture coordinates
  double distortion = 0;  // k1, of the radius in half diagonals

  struct Projected {
    cv::Point2d px;
    double depth;
  };
  Projected project(Vec3 world) const;
  // The point of the plane z = height seen at a pixel.
  Vec2 on_plane(cv::Point2d px, double height = 0) const;
  Vec3 position() const;  // of the camera, world frame
  double diagonal() const { return std::hypot(size.width, size.height); }
  double px_per_unit() const { return focal_px / distance; }  // near the origin
};

}  // namespace evet::render
