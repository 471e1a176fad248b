// The middle of a long region from end to end, with the region's half-widths along it.
//
// The longest way through the region, kept to its middle, gives the course; points are then moved halfway
// between the two borders that a perpendicular meets, and both ends are carried on to the border. Which end
// is the head it does not say.
#pragma once
#include <opencv2/core.hpp>
#include <optional>

#include "matcher/belly/ribbon.h"

namespace evet {

// Frame of the mask, pixel centres at +0.5. No value: empty, too small, or without length.
// `mask`: one region; of several only that with the deepest point counts.
std::optional<Ribbon> medial_ribbon(const cv::Mat1b& mask);

// The longest way through a filled region along its middle, pixel by pixel; `depth` is its distance
// transform. At least one point.
std::vector<cv::Point2d> longest_way(const cv::Mat1f& depth);

}  // namespace evet
