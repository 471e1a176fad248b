#include "matcher/pattern/masked_blur.h"

#include <opencv2/imgproc.hpp>

namespace evet {

MaskedBlur masked_blur(const SpotMap& map, double sigma_px) {
  cv::Mat1f weight, value;
  map.valid.convertTo(weight, CV_32F, 1 / 255.0);
  map.dark.convertTo(value, CV_32F, 1 / 255.0);
  value = value.mul(weight);
  MaskedBlur out;
  cv::GaussianBlur(weight, out.support, {}, sigma_px, sigma_px, cv::BORDER_CONSTANT);
  cv::GaussianBlur(value, out.value, {}, sigma_px, sigma_px, cv::BORDER_CONSTANT);
  for (int row = 0; row < map.dark.rows; ++row)
    for (int col = 0; col < map.dark.cols; ++col) {
      const float support = out.support(row, col);
      out.value(row, col) = support > 1e-3F ? out.value(row, col) / support : 0.F;
    }
  return out;
}

}  // namespace evet
