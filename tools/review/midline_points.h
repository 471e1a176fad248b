// A midline as a hand draws it, over the wire.
#pragma once
#include <opencv2/core.hpp>
#include <string>
#include <vector>

namespace evet::review {

// To tenths of a pixel: what a hand can mean, and the same text again on every machine. Errors: bad_input for
// too few points, or too many.
std::vector<cv::Point2d> midline_of(const std::vector<cv::Point2d>& drawn);
// "12.5,40;13,90.1". Errors: bad_input.
std::vector<cv::Point2d> midline_of(const std::string& text);

}  // namespace evet::review
