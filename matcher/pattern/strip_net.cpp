#include "matcher/pattern/strip_net.h"

#include <array>
#include <cstring>
#include <opencv2/dnn.hpp>

#include "matcher/base/error.h"
#include "matcher/pattern/pattern.h"

// strip_weights.S
extern "C" const std::byte evet_spots_begin[], evet_spots_end[], evet_embedding_begin[], evet_embedding_end[];

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
  const std::array<int, 4> shape{1, static_cast<int>(planes.size()), kMapRows, kMapCols};
  cv::Mat input(4, shape.data(), CV_32F);
  for (size_t k = 0; k < planes.size(); ++k)
    std::memcpy(input.ptr<float>(0, static_cast<int>(k)), planes[k].ptr<float>(),
                sizeof(float) * kMapRows * kMapCols);
  try {
    parts_->net.setInput(input);
    const cv::Mat output = parts_->net.forward();
    return {output.ptr<float>(), output.ptr<float>() + output.total()};
  } catch (const cv::Exception& e) {
    throw Error(ErrorKind::unsupported, parts_->name, std::string("takes another input: ") + e.what(),
                "use the ONNX file that the training script writes");
  }
}

StripNet& StripNet::spots() {
  static thread_local StripNet net({evet_spots_begin, evet_spots_end}, "spot network");
  return net;
}
StripNet& StripNet::embedding() {
  static thread_local StripNet net({evet_embedding_begin, evet_embedding_end}, "embedding network");
  return net;
}

}  // namespace evet
