// Pixels to the bytes of a picture file, for reports, the review page and drawings of the stages.
//
// Nothing of the original photo's metadata travels: no place, no camera, no time.
#pragma once
#include <cstddef>
#include <opencv2/core.hpp>
#include <vector>

namespace evet {

// 8-bit, one channel (grey) or three (BGR). Lossless; for masks and drawings.
// Errors: bad_input for an empty picture or another kind of pixel.
std::vector<std::byte> encode_png(const cv::Mat& picture);

// As above, three channels or one; quality 1 to 100.
std::vector<std::byte> encode_jpeg(const cv::Mat& picture, int quality = 88);

}  // namespace evet
