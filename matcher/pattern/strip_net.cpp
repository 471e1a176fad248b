#include "matcher/pattern/strip_net.h"

#include <array>
#include <opencv2/dnn.hpp>

#include "matcher/base/error.h"

// strip_weights.S
extern "C" const std::byte evet_spots_begin[], evet_spots_end[], evet_embedding_begin[], evet_embedding_end[],
    evet_pairs_begin[], evet_pairs_end[];

namespace evet {

struct StripNet::Parts {
  const char* name;
  cv::dnn::Net net;
};

StripNet::StripNet(std::span<const std::byte> onnx, const char* name)
    : parts_(std::make_unique<Parts>(Parts{name, {}})) {
  try {
    parts_->net = cv::dnn::readNetFromONNX(reinterpret_cast<const char*>(onnx.data()), onnx.size());
    parts_->net.setPreferableBackend(cv::dnn::DNN_BACKEND_OPENCV);
    parts_->net.setPreferableTarget(cv::dnn::DNN_TARGET_CPU);
  } catch (const cv::Exception& e) {
    throw Error(ErrorKind::unsupported, name, std::string("cannot be read: ") + e.what(),
                "use the ONNX file that the training script writes");
  }
}
StripNet::~StripNet() = default;
StripNet::StripNet(StripNet&&) noexcept = default;
StripNet& StripNet::operator=(StripNet&&) noexcept = default;

std::vector<float> StripNet::forward(const std::vector<cv::Mat1f>& planes) {
  try {
    const std::array<int, 4> shape{1, static_cast<int>(planes.size()), planes.at(0).rows, planes[0].cols};
    cv::Mat input(4, shape.data(), CV_32F);
    for (int k = 0; k < shape[1]; ++k)
      planes[static_cast<size_t>(k)].copyTo(cv::Mat1f(shape[2], shape[3], input.ptr<float>(0, k)));
    parts_->net.setInput(input);
    const cv::Mat output = parts_->net.forward();
    return {output.ptr<float>(), output.ptr<float>() + output.total()};
  } catch (const cv::Exception& e) {
    throw Error(ErrorKind::unsupported, parts_->name, std::string("takes another input: ") + e.what(),
                "use the ONNX file that the training script writes");
  }
}

StripWeights strip_weights() {
  return {{evet_spots_begin, evet_spots_end},
          {evet_embedding_begin, evet_embedding_end},
          {evet_pairs_begin, evet_pairs_end}};
}

StripNet& StripNet::spots() {
  static thread_local StripNet net(strip_weights().spots, "spot network");
  return net;
}
StripNet& StripNet::embedding() {
  static thread_local StripNet net(strip_weights().embedding, "embedding network");
  return net;
}
StripNet& StripNet::pairs() {
  static thread_local StripNet net(strip_weights().pairs, "pair network");
  return net;
}

}  // namespace evet
