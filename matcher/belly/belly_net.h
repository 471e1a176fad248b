// The belly network: one square look at a picture in, body coordinates of what it shows out.
//
// Input 1 x 3 x 256 x 256, RGB in [0, 1]; output 1 x 11 x 128 x 128: logit belly, logit animal, logit clear,
// u, v, log of the Laplace scale of the error of u (v's is kVErrorPerU as large), logit that animal skin is a
// small species' underside, logits of head, fore limb, hind limb and tail.
#pragma once
#include <cstddef>
#include <span>

#include "matcher/base/onnx_net.h"
#include "matcher/belly/body_coordinates.h"

namespace evet {

inline constexpr int kLookSide = 256;

class BellyNet {
 public:
  // Error: unsupported, when the bytes are no network of this shape.
  explicit BellyNet(std::span<const std::byte> onnx);

  // `look`: kLookSide x kLookSide. Not to be called from two threads at once. confidence is left at 0.
  BodyCoordinates look(const cv::Mat3b& look, const cv::Matx23d& photo_from_look);

 private:
  OnnxNet net_;
};

// The trained weights that are part of the library, as they lie there: gzip of the ONNX file
// (tools/train/pack_belly.py). Empty when it was built without any.
std::span<const std::byte> packed_belly_weights();
// The same, unpacked at the first call and kept.
std::span<const std::byte> belly_weights();

}  // namespace evet
