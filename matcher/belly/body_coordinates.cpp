#include "matcher/belly/body_coordinates.h"

namespace evet {

BodyCoordinates turned_end_for_end(const BodyCoordinates& coordinates) {
  BodyCoordinates out = coordinates;
  out.uv = coordinates.uv.clone();
  for (cv::Vec2f& uv : out.uv) uv = {1 - uv[0], -uv[1]};
  out.p_head_right = 1 - coordinates.p_head_right;
  return out;
}

}  // namespace evet
