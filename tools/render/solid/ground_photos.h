// Photographs of grounds and surroundings from a folder, if one is named by the environment variable
// EVET_GROUNDS: JPEG files, made by tools/train/fetch_grounds.sh. Without it, grounds are made up alone.
#pragma once
#include <opencv2/core.hpp>
#include <optional>

#include "tools/render/solid/dice.h"
#include "tools/render/solid/shapes.h"

namespace evet::render::solid {

// A piece of one photograph, with colours turned and stretched at random.
class GroundPhoto {
 public:
  static std::optional<GroundPhoto> draw(Dice dice);  // none without a folder
  Colour at(float x, float y) const;                  // mirrored at its edges, so it goes on for ever
 private:
  cv::Mat3f linear_;
  Eigen::Matrix2f pixels_from_place_;
  Flat origin_;
};

}  // namespace evet::render::solid
