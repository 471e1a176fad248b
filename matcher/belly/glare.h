// Where reflected light hides the skin: blown out, or a small bright colourless patch on coloured skin.
#pragma once
#include <opencv2/core.hpp>

namespace evet {

// 255 where hidden, with the veil round it. Meant for the strip: sizes are shares of its width.
cv::Mat1b glare_mask(const cv::Mat3b& bgr);

}  // namespace evet
