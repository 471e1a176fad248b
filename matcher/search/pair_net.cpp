#include "matcher/search/pair_net.h"

#include "matcher/base/onnx_net.h"

extern "C" const std::byte evet_pairs_begin[], evet_pairs_end[];  // weights.S

namespace evet {

double judged(const Level& earlier, const Level& later) {
  std::vector<cv::Mat1f> planes;
  for (const Level* level : {&earlier, &later}) {
    planes.emplace_back((level->dark - 0.5F).mul(level->weight));
    planes.push_back(level->weight);
  }
  return judged(planes);
}

double judged(const std::vector<cv::Mat1f>& planes) {
  static thread_local OnnxNet net(pair_weights(), "pair network");
  return net.forward(planes).at(0);
}

std::span<const std::byte> pair_weights() {
  return {evet_pairs_begin, evet_pairs_end};
}

}  // namespace evet
