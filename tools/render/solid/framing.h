// Where the camera stands, so that the animal lies in the frame as the plan wants it.
#pragma once
#include <vector>

#include "tools/render/solid/body.h"
#include "tools/render/solid/lens.h"

namespace evet::render::solid {

// Turns the body where it would not fit otherwise; `turn` then says how it lies.
Lens frame(Body& body, const Plan& plan, const Limits& limits, cv::Size size, float& turn, Dice dice);

std::vector<cv::Point2d> midline_of(const Body& body, const Lens& lens);
double length_of(const std::vector<cv::Point2d>& line);

}  // namespace evet::render::solid
