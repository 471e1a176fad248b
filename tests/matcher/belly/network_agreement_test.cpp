// The belly network gives in OpenCV what it gave in PyTorch, which trained and exported it.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <fstream>
#include <vector>

#include "matcher/base/onnx_net.h"
#include "matcher/belly/belly_net.h"

namespace evet {
namespace {

constexpr int kSmall = 64, kInput = 256, kPlanes = 11, kKept = 16;

// Layout: tools/train/train_belly.py, save().
struct Reference {
  std::vector<unsigned char> rgb = std::vector<unsigned char>(kSmall * kSmall * 3);
  std::vector<float> planes = std::vector<float>(kPlanes * kKept * kKept);
};

Reference read_reference() {
  Reference reference;
  std::ifstream in(std::string(EVET_TEST_DATA) + "/belly_network_reference.bin", std::ios::binary);
  in.read(reinterpret_cast<char*>(reference.rgb.data()), static_cast<std::streamsize>(reference.rgb.size()));
  in.read(reinterpret_cast<char*>(reference.planes.data()),
          static_cast<std::streamsize>(reference.planes.size() * sizeof(float)));
  EXPECT_TRUE(in) << "tests/data/belly_network_reference.bin is missing or short";
  return reference;
}

cv::Mat network_input(const Reference& reference) {
  const std::array<int, 4> shape{1, 3, kInput, kInput};
  cv::Mat input(4, shape.data(), CV_32F);
  float* out = input.ptr<float>();
  for (int c = 0; c < 3; ++c)
    for (int y = 0; y < kInput; ++y)
      for (int x = 0; x < kInput; ++x)
        *out++ =
            static_cast<float>(reference.rgb[static_cast<std::size_t>((y / 4 * kSmall + x / 4) * 3 + c)]) /
            255.F;
  return input;
}

}  // namespace

TEST(BellyNetwork, AgreesWithTheFrameworkThatTrainedIt) {
  const Reference reference = read_reference();
  OnnxNet net(belly_weights(), "belly network");
  const cv::Mat planes = net.forward(network_input(reference));
  ASSERT_EQ(planes.dims, 4);
  ASSERT_EQ(planes.size[1], kPlanes);
  ASSERT_EQ(planes.size[2], 128);
  ASSERT_EQ(planes.size[3], 128);

  double worst = 0;
  int belly = 0;
  const float* expected = reference.planes.data();
  for (int plane = 0; plane < kPlanes; ++plane)
    for (int y = 0; y < kKept; ++y)
      for (int x = 0; x < kKept; ++x) {
        const std::array<int, 4> at{0, plane, 8 * y + 4, 8 * x + 4};
        belly += plane == 0 && *expected > 0;
        worst = std::max(worst, std::abs(static_cast<double>(planes.at<float>(at.data()) - *expected++)));
      }
  EXPECT_GT(belly, 0) << "a reference without a belly shows nothing";
  EXPECT_LT(worst, 1e-3) << "logits and coordinates, of order 1 to 10";
  RecordProperty("worst_difference", std::to_string(worst));
}

}  // namespace evet
