// From light to a picture: blur, exposure, colour, noise, tone, sharpening, JPEG.
#pragma once
#include <opencv2/core.hpp>

#include "tools/render/solid/capture_plan.h"
#include "tools/render/solid/shapes.h"

namespace evet::render::solid {

// How much light makes white; drawn before the development, because what is glaring depends on it.
float draw_exposure(const cv::Mat3f& light, const cv::Mat1b& animal, bool wild, Dice dice);

cv::Mat3b develop_film(const cv::Mat3f& light, float exposure, const Plan& plan, const Colour& lamp_colour,
                       Dice dice);

}  // namespace evet::render::solid
