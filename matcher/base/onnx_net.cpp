#include "matcher/base/onnx_net.h"

#include <array>
#include <opencv2/dnn.hpp>
#include <utility>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"

namespace evet {

struct OnnxNet::Parts {
  std::string name;
  Message right;
  cv::dnn::Net net;
};

OnnxNet::OnnxNet(std::span<const std::byte> onnx, std::string name, std::optional<Message> right)
    : parts_(
          std::make_unique<Parts>(Parts{std::move(name), right.value_or(messages::kUseOnnxOfTraining), {}})) {
  try {
    parts_->net = cv::dnn::readNetFromONNX(reinterpret_cast<const char*>(onnx.data()), onnx.size());
    parts_->net.setPreferableBackend(cv::dnn::DNN_BACKEND_OPENCV);
    parts_->net.setPreferableTarget(cv::dnn::DNN_TARGET_CPU);
  } catch (const cv::Exception& e) {
    throw Error(ErrorKind::unsupported, parts_->name, Message(messages::kCannotBeRead, {{"e", e.what()}}),
                parts_->right);
  }
}
OnnxNet::~OnnxNet() = default;
OnnxNet::OnnxNet(OnnxNet&&) noexcept = default;
OnnxNet& OnnxNet::operator=(OnnxNet&&) noexcept = default;

cv::Mat OnnxNet::forward(const cv::Mat& input) {
  try {
    parts_->net.setInput(input);
    return parts_->net.forward();
  } catch (const cv::Exception& e) {
    throw Error(ErrorKind::unsupported, parts_->name,
                Message(messages::kTakesAnotherInput, {{"e", e.what()}}), parts_->right);
  }
}

std::vector<float> OnnxNet::forward(const std::vector<cv::Mat1f>& planes) {
  const std::array<int, 4> shape{1, static_cast<int>(planes.size()), planes.at(0).rows, planes[0].cols};
  cv::Mat input(4, shape.data(), CV_32F);
  for (int k = 0; k < shape[1]; ++k)
    planes[static_cast<size_t>(k)].copyTo(cv::Mat1f(shape[2], shape[3], input.ptr<float>(0, k)));
  const cv::Mat output = forward(input);
  return {output.ptr<float>(), output.ptr<float>() + output.total()};
}

}  // namespace evet
