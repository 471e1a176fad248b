#include "matcher/pattern/embedding_net.h"

#include "matcher/base/onnx_net.h"

extern "C" const std::byte evet_embedding_begin[], evet_embedding_end[];  // pattern_weights.S

namespace evet {

std::vector<float> raw_embedding(const std::vector<cv::Mat1f>& planes) {
  static thread_local OnnxNet net(embedding_weights(), "embedding network");
  return net.forward(planes);
}

std::span<const std::byte> embedding_weights() {
  return {evet_embedding_begin, evet_embedding_end};
}

}  // namespace evet
