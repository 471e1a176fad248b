// A network from an ONNX file, run by OpenCV's DNN module on the processor: the same for all of the program's
// networks. What each takes and gives stands with it: belly/belly_net.h, pattern/spot_net.h,
// pattern/embedding_net.h and search/pair_net.h.
#pragma once
#include <cstddef>
#include <memory>
#include <opencv2/core.hpp>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "matcher/base/message.h"

namespace evet {

class OnnxNet {
 public:
  // `name` and `right` are for errors: which network, and what would be right (else the training's file).
  // Error: unsupported, when the bytes are no network that OpenCV reads.
  OnnxNet(std::span<const std::byte> onnx, std::string name, std::optional<Message> right = std::nullopt);
  ~OnnxNet();
  OnnxNet(OnnxNet&&) noexcept;
  OnnxNet& operator=(OnnxNet&&) noexcept;

  // 1 x planes x rows x columns in; what comes out is valid until the next call. Not to be called from two
  // threads at once. Error: unsupported, for an input that is not the network's.
  cv::Mat forward(const cv::Mat& input);
  // The same of planes of one size, with the numbers that come out in their order.
  std::vector<float> forward(const std::vector<cv::Mat1f>& planes);

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace evet
