#include "matcher/photo/upright.h"

namespace evet {

cv::Mat3b upright(const cv::Mat3b& stored, int orientation) {
  constexpr int both = -1, top_to_bottom = 0, left_to_right = 1;  // flip codes of cv::flip
  cv::Mat3b out;
  switch (orientation) {
    case 2:
      cv::flip(stored, out, left_to_right);
      return out;
    case 3:
      cv::flip(stored, out, both);
      return out;
    case 4:
      cv::flip(stored, out, top_to_bottom);
      return out;
    case 5:
      cv::transpose(stored, out);
      return out;
    case 6:
      cv::rotate(stored, out, cv::ROTATE_90_CLOCKWISE);
      return out;
    case 7:
      cv::transpose(stored, out);
      cv::flip(out, out, both);
      return out;
    case 8:
      cv::rotate(stored, out, cv::ROTATE_90_COUNTERCLOCKWISE);
      return out;
    default:
      return stored;
  }
}

}  // namespace evet
