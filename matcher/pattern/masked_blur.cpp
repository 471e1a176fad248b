#include "matcher/pattern/masked_blur.h"

#include <opencv2/imgproc.hpp>

namespace evet {

MaskedBlur masked_blur(const SpotMap& map, double sigma_px) {
  cv::Mat1f weight, value;
  map.valid.convertTo(weight, CV_32F, 1 / 255.0);
  map.dark.convertTo(value, CV_32F, 1 / 255.0);
  return masked_blur(value.mul(weight), weight, sigma_px, cv::BORDER_CONSTANT);
}

MaskedBlur masked_blur(const cv::Mat1f& weighted, const cv::Mat1f& weight, double sigma_px, int border) {
  MaskedBlur out;
  cv::Mat1f sum;
  cv::GaussianBlur(weighted, sum, {}, sigma_px, sigma_px, border);
  cv::GaussianBlur(weight, out.support, {}, sigma_px, sigma_px, border);
  out.value = weighted_mean(sum, out.support);
  return out;
}

cv::Mat1f weighted_mean(const cv::Mat1f& sum, const cv::Mat1f& weight) {
  cv::Mat1f mean(sum.size());
  for (int row = 0; row < sum.rows; ++row)
    for (int col = 0; col < sum.cols; ++col)
      mean(row, col) = weight(row, col) > 1e-3F ? sum(row, col) / weight(row, col) : 0.F;
  return mean;
}

}  // namespace evet
