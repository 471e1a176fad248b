// From light on the sensor to the 8-bit picture: blur, exposure, white balance, noise, tone, JPEG.
#pragma once
#include <opencv2/core.hpp>
#include <optional>

#include "tools/render/capture.h"
#include "tools/render/finish.h"
#include "tools/render/light.h"
#include "tools/render/rng.h"

namespace evet::render {

struct Development {
  double blur_px = 0.5, motion_px = 0, motion_angle_rad = 0;
  double exposure = 1;  // gain
  Vec3 white_balance{1, 1, 1};
  double vignette = 0;  // share lost in the corners
  double veil = 0;      // flare or milky water, added everywhere
  double noise = 0;     // 0..1
  double contrast = 1, saturation = 1, shoulder = 0.5, gamma = 1;
  double sharpening = 0;
  std::optional<Finish> finish;  // of foreign cameras
  int jpeg_quality = 90;
};
Development draw_development(const CapturePlan& plan, const Light& light, cv::Size size, Rng rng);

// `light`: linear r, g, b; used up.
cv::Mat3b develop(cv::Mat3f& light, const Development& how, Rng rng);

}  // namespace evet::render
