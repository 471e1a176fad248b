// Finds the scale card (scale_card.h) in a photo.
//
// Dark four-sided outlines are read as squares of the card's code; at least two that lie as on the card make
// one. Debian 12 has an ArUco reader only in OpenCV's contrib package, which brings Qt, HDF5 and a text
// reader with it; four known squares need a hundred lines. Method: Garrido-Jurado et al., Pattern Recognition
// 47 (2014).
#pragma once
#include <opencv2/core.hpp>
#include <optional>

#include "matcher/belly/scale_card.h"

namespace evet {

struct CardOptions {
  double least_side_px = 14;      // of a square: smaller ones cannot be read
  double largest_error_mm = 0.4;  // root mean square about one plane: beyond, it is no flat card
  void check() const;
};

// No value: fewer than two squares are seen, or they do not lie as on a card that is flat.
std::optional<ScaleCard> find_scale_card(const cv::Mat3b& bgr, const CardOptions& options = {});

}  // namespace evet
