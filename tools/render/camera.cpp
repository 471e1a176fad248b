#include "tools/render/camera.h"

namespace evet::render {

Camera::Projected Camera::project(Vec3 world) const {
  const double ca = std::cos(tilt_azimuth_rad), sa = std::sin(tilt_azimuth_rad), ct = std::cos(tilt_rad),
               st = std::sin(tilt_rad);
  const double along = ca * world.x + sa * world.y, across = -sa * world.x + ca * world.y;
  const double turned = across * ct - world.z * st, up = across * st + world.z * ct;
  const double depth = distance - up;
  const double nx = (ca * along - sa * turned) / depth + shift.x,
               ny = (sa * along + ca * turned) / depth + shift.y;
  const double half = diagonal() / 2, qx = nx * focal_px / half, qy = ny * focal_px / half;
  const double lens = 1 + distortion * std::min(4.0, qx * qx + qy * qy);
  return {{size.width / 2.0 + qx * lens * half, size.height / 2.0 + qy * lens * half}, depth};
}

Vec2 Camera::on_plane(cv::Point2d px, double height) const {
  const double half = diagonal() / 2;
  const double dx = (px.x - size.width / 2.0) / half, dy = (px.y - size.height / 2.0) / half;
  double qx = dx, qy = dy;
  for (int i = 0; i < 3; ++i) {
    const double lens = 1 + distortion * std::min(4.0, qx * qx + qy * qy);
    qx = dx / lens;
    qy = dy / lens;
  }
  const double nx = qx * half / focal_px - shift.x, ny = qy * half / focal_px - shift.y;
  const double ca = std::cos(tilt_azimuth_rad), sa = std::sin(tilt_azimuth_rad), ct = std::cos(tilt_rad),
               st = std::sin(tilt_rad);
  const double seen_along = ca * nx + sa * ny, seen_across = -sa * nx + ca * ny;
  const double across = (seen_across * (distance - height * ct) + height * st) / (ct + seen_across * st);
  const double depth = distance - across * st - height * ct;
  const double along = seen_along * depth;
  return {static_cast<float>(ca * along - sa * across), static_cast<float>(sa * along + ca * across)};
}

Vec3 Camera::position() const {
  const double up = distance * std::cos(tilt_rad), across = distance * std::sin(tilt_rad);
  return {static_cast<float>(-std::sin(tilt_azimuth_rad) * across),
          static_cast<float>(std::cos(tilt_azimuth_rad) * across), static_cast<float>(up)};
}

}  // namespace evet::render
