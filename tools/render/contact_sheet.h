// Many rendered photographs on one picture, for a look by eye.
#pragma once
#include <functional>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "tools/render/scene.h"

namespace evet::render {

struct SheetCell {
  CaptureSpec spec;
  std::string caption;
};

struct SheetOptions {
  int columns = 4;
  bool overlay = false;  // draw lines of equal u and v, the edge of the belly and what is not clear
  bool skins = false;    // show the unrolled skin instead of the photo
};
cv::Mat3b contact_sheet(const std::vector<SheetCell>& cells, const SheetOptions& options);

// The truth drawn on its photo.
cv::Mat3b overlay_truth(const RenderedPhoto& photo);

}  // namespace evet::render
