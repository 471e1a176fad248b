// JPEG in memory through libjpeg, the same bytes on every machine (slow integer transform).
#pragma once
#include <opencv2/core.hpp>
#include <vector>

namespace evet::render {

// 4:2:0. Throws std::runtime_error when libjpeg does.
std::vector<unsigned char> encode_jpeg(const cv::Mat3b& bgr, int quality);
cv::Mat3b decode_jpeg(const std::vector<unsigned char>& bytes);

}  // namespace evet::render
