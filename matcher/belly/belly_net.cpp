#include "matcher/belly/belly_net.h"

#include <algorithm>
#include <cmath>
#include <opencv2/dnn.hpp>
#include <vector>

#include "matcher/base/error.h"
#include "matcher/base/gunzip.h"
#include "matcher/belly/messages.h"

extern "C" const std::byte evet_belly_weights_begin[], evet_belly_weights_end[];  // belly_weights.S

namespace evet {
namespace {

enum Plane {
  kBelly,
  kAnimal,
  kClear,
  kU,
  kV,
  kLogScale,
  kSmallKind,
  kHead,
  kForeLimb,
  kHindLimb,
  kTail,
  kPlanes
};
constexpr int kGrid = 128;

float sigmoid(float logit) {
  return 1 / (1 + std::exp(-logit));
}

cv::Mat1f plane(const cv::Mat& output, int which) {
  return cv::Mat1f(kGrid, kGrid, const_cast<float*>(output.ptr<float>(0, which)));
}

template <class Function>
cv::Mat1f mapped(const cv::Mat1f& in, Function f) {
  cv::Mat1f out(in.size());
  std::transform(in.begin(), in.end(), out.begin(), f);
  return out;
}

}  // namespace

BellyNet::BellyNet(std::span<const std::byte> onnx) : net_(onnx, "belly network", messages::kUseOnnxOfBelly) {
  look(cv::Mat3b(kLookSide, kLookSide, cv::Vec3b(128, 128, 128)), cv::Matx23d::eye());
}

BodyCoordinates BellyNet::look(const cv::Mat3b& look, const cv::Matx23d& photo_from_look) {
  const cv::Mat output = net_.forward(cv::dnn::blobFromImage(look, 1 / 255.0, {}, {}, true));
  if (output.dims != 4 || (output.size[1] != kPlanes && output.size[1] != kHead) || output.size[2] != kGrid ||
      output.size[3] != kGrid)
    throw Error(ErrorKind::unsupported, "belly network", messages::kAnswersInAnotherShape,
                messages::kUse1X11X);
  BodyCoordinates k;
  k.source = "network";
  k.p_belly = mapped(plane(output, kBelly), sigmoid);
  k.p_clear = mapped(plane(output, kClear), sigmoid);
  k.error = mapped(plane(output, kLogScale), [](float s) { return std::exp(std::clamp(s, -6.f, 1.f)); });
  if (output.size[1] == kPlanes) {
    k.p_head = mapped(plane(output, kHead), sigmoid);
    k.p_fore_limb = mapped(plane(output, kForeLimb), sigmoid);
    k.p_hind_limb = mapped(plane(output, kHindLimb), sigmoid);
    k.p_tail = mapped(plane(output, kTail), sigmoid);
  }
  const cv::Mat uv[2] = {plane(output, kU), plane(output, kV)};
  cv::merge(uv, 2, k.uv);
  const double step = static_cast<double>(kLookSide) / kGrid;
  k.photo_from_grid = photo_from_look;
  for (int row = 0; row < 2; ++row)
    for (int column = 0; column < 2; ++column) k.photo_from_grid(row, column) *= step;

  const cv::Mat1f p_animal = mapped(plane(output, kAnimal), sigmoid);
  const cv::Mat1f p_small = mapped(plane(output, kSmallKind), sigmoid);
  std::vector<float> animal(p_animal.begin(), p_animal.end());
  constexpr int kTop = 200;  // cells: a small animal in a large picture
  std::nth_element(animal.begin(), animal.begin() + kTop, animal.end(), std::greater<>());
  for (int i = 0; i < kTop; ++i) k.p_animal += animal[i] / kTop;
  k.p_small_kind = p_animal.dot(p_small) / std::max(cv::sum(p_animal)[0], 1e-6);
  return k;
}

std::span<const std::byte> packed_belly_weights() {
  return {evet_belly_weights_begin, evet_belly_weights_end};
}

std::span<const std::byte> belly_weights() {
  static const std::vector<std::byte> unpacked = gunzip(packed_belly_weights(), "belly network");
  return unpacked;
}

}  // namespace evet
