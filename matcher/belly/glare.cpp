#include "matcher/belly/glare.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace evet {
namespace {

constexpr int kBlown = 236;     // the darkest channel of a pixel that says nothing of the skin under it
constexpr double kVeil = 0.02;  // of the width: how far the halo reaches beyond the blown core

}  // namespace

cv::Mat1b glare_mask(const cv::Mat3b& bgr) {
  cv::Mat1b mask(bgr.size());
  for (int y = 0; y < bgr.rows; ++y)
    for (int x = 0; x < bgr.cols; ++x) {
      const cv::Vec3b& p = bgr(y, x);
      mask(y, x) = std::min({p[0], p[1], p[2]}) >= kBlown ? 255 : 0;
    }
  const int reach = std::max(1, cvRound(bgr.cols * kVeil));
  cv::dilate(mask, mask, cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * reach + 1, 2 * reach + 1}));
  return mask;
}

}  // namespace evet
