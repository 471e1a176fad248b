#include "matcher/pattern/spot_net.h"

#include "matcher/base/onnx_net.h"

extern "C" const std::byte evet_spots_begin[], evet_spots_end[];  // pattern_weights.S

namespace evet {

std::vector<float> spot_logits(const std::vector<cv::Mat1f>& planes) {
  static thread_local OnnxNet net(spot_weights(), "spot network");
  return net.forward(planes);
}

std::span<const std::byte> spot_weights() {
  return {evet_spots_begin, evet_spots_end};
}

}  // namespace evet
