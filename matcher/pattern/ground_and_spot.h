// The mixture behind the spot map: smooth lighting + ground + spot, fitted to the log colours of one belly.
#pragma once
#include <opencv2/core.hpp>

#include "matcher/pattern/spot_map.h"

namespace evet {

// Map frame. Channel 0: log brightness, channel 1: log hue (red against green and blue).
struct LogColours {
  cv::Mat2f colour;
  cv::Mat1b valid;  // 255 where known
};

// Share of each map pixel that is dark, 0 .. 255; 0 where unknown.
cv::Mat1b darkness(const LogColours& colours, const SpotMapOptions& options);

}  // namespace evet
