// Gaussian and motion blur of float pictures (any number of channels), the same bits on every machine.
#pragma once
#include <opencv2/core.hpp>

namespace evet::render {

// In place; border pixels are repeated. Below sigma 2 px a true kernel, above it three box passes.
void gaussian_blur(cv::Mat& picture, double sigma_px);

// In place: mean along a straight line of the given length and direction.
void motion_blur(cv::Mat& picture, double length_px, double angle_rad);

}  // namespace evet::render
