// Exif orientation applied to pixels.
#pragma once
#include <opencv2/core.hpp>

namespace evet {

// `orientation` 1..8 as in Exif 3.0 / TIFF 6.0 tag 274: where row 0 and column 0 of the stored picture lie
// when it is seen upright. Any other value leaves the picture as it is.
cv::Mat3b upright(const cv::Mat3b& stored, int orientation);

}  // namespace evet
