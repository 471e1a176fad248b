// Does a midline drawn by hand lie on an animal at all?
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "matcher/photo/decode.h"
#include "tools/verdicts/objections.h"

namespace evet {

// Share of the drawn line's length that lies on what the belly network takes for a belly, [0, 1]. `midline`
// in pixels of the full-size upright picture.
double share_on_belly(const Photo& photo, const std::vector<cv::Point2d>& midline);

// Below this the line is said to lie off the body. Half of a line has to leave the belly for it: whoever
// draws one has a photo on which the belly was not found well.
inline constexpr double kOnBelly = 0.5;

// "midline_off_body", or nothing. Errors: those of decode_photo.
std::vector<Against> objections_to_midline(std::span<const std::byte> file, const CaptureId& capture,
                                           const std::string& item, const std::vector<cv::Point2d>& midline);

}  // namespace evet
