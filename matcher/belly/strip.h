// The belly straightened to a fixed canvas, cross-section unrolled, head up.
#pragma once
#include <opencv2/core.hpp>
#include <vector>

namespace evet {

// Canvas: row r, column c show u = (r + 0.5) / kStripRows and v = (c + 0.5) / kStripCols * 2 - 1.
inline constexpr int kStripRows = 512;
inline constexpr int kStripCols = 160;

struct Strip {
  cv::Mat3b bgr;    // kStripRows x kStripCols
  cv::Mat1b valid;  // 255 where skin was seen plainly, 0 where covered, glaring or out of sight
};

// The geometry behind a strip, for drawing and for the quality measures. Photo frame, pixels of Photo::bgr.
struct BellyShape {
  std::vector<cv::Point2d> midline;     // v = 0 at u = 0, 1/64, ..., 1 (65 points), head first
  std::vector<cv::Point2d> left_edge;   // v = -1 at the same u (extrapolated where out of sight)
  std::vector<cv::Point2d> right_edge;  // v = +1 at the same u
  std::vector<cv::Point> outline;       // polygon round the belly skin that is seen
  double length_px = 0;                 // along the midline, in pixels of the full-size picture
  double bend_deg = 0;                  // total turn of the midline tangent, degrees
  double roll = 0;  // mean shift of the pattern across, in half-widths; 0 = flat on its back
  double p_head_right = 1;
  double p_laid_right = 1;  // that the strip lies on the belly as it should
};

}  // namespace evet
