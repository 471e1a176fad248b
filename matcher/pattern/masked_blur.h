// Gaussian smoothing that looks only at valid pixels (normalised convolution, Knutsson & Westin 1993, CVPR).
#pragma once
#include <opencv2/core.hpp>

#include "matcher/pattern/pattern.h"

namespace evet {

struct MaskedBlur {
  cv::Mat1f value;    // [0,1] dark share, weighted mean of the valid pixels; 0 where there are none
  cv::Mat1f support;  // [0,1] share of the kernel's weight that lay on valid pixels
};
MaskedBlur masked_blur(const SpotMap& map, double sigma_px);

// `weighted`: values times their weights. `border`: what lies beyond the edge, as for cv::GaussianBlur.
MaskedBlur masked_blur(const cv::Mat1f& weighted, const cv::Mat1f& weight, double sigma_px, int border);

// Sums of weighted values over the sums of their weights; 0 where there is next to no weight.
cv::Mat1f weighted_mean(const cv::Mat1f& sum, const cv::Mat1f& weight);

}  // namespace evet
