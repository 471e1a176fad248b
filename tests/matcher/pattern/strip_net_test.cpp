// The strip networks give in OpenCV what they gave in PyTorch, which trained and exported them.
#include "matcher/pattern/strip_net.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>

#include "matcher/base/error.h"
#include "matcher/pattern/pattern.h"

namespace evet {
namespace {

constexpr int kStep = 8, kRows = kMapRows / kStep, kCols = kMapCols / kStep;

// Layout: tools/train/train_strip.py, export_all().
struct Reference {
  std::vector<cv::Mat1f> planes;
  std::vector<float> answer;
};
Reference reference(const std::string& name, int planes, size_t answers) {
  std::ifstream in(std::string(EVET_TEST_DATA) + "/" + name, std::ios::binary);
  std::vector<float> small(static_cast<size_t>(planes) * kRows * kCols);
  Reference out;
  out.answer.resize(answers);
  in.read(reinterpret_cast<char*>(small.data()), static_cast<std::streamsize>(small.size() * sizeof(float)));
  in.read(reinterpret_cast<char*>(out.answer.data()), static_cast<std::streamsize>(answers * sizeof(float)));
  EXPECT_TRUE(in) << name << " is missing or short";
  for (int k = 0; k < planes; ++k) {
    cv::Mat1f plane(kMapRows, kMapCols);
    for (int r = 0; r < kMapRows; ++r)
      for (int c = 0; c < kMapCols; ++c)
        plane(r, c) = small[static_cast<size_t>((k * kRows + r / kStep) * kCols + c / kStep)];
    out.planes.push_back(plane);
  }
  return out;
}

TEST(StripNet, SpotsAgreeWithTheFrameworkThatTrainedThem) {
  const Reference wanted = reference("spots_network_reference.bin", 3, 2 * kRows * kCols);
  const std::vector<float> got = StripNet::spots().forward(wanted.planes);
  ASSERT_EQ(got.size(), 2U * kMapRows * kMapCols);
  double worst = 0;
  for (int k = 0; k < 2; ++k)
    for (int r = 0; r < kRows; ++r)
      for (int c = 0; c < kCols; ++c) {
        const int at = (k * kMapRows + kStep * r + kStep / 2) * kMapCols + kStep * c + kStep / 2;
        worst = std::max(worst, std::abs(static_cast<double>(got[static_cast<size_t>(at)]) -
                                         wanted.answer[static_cast<size_t>((k * kRows + r) * kCols + c)]));
      }
  EXPECT_LT(worst, 1e-3) << "logits, of order 1 to 10";
}

TEST(StripNet, EmbeddingAgreesWithTheFrameworkThatTrainedIt) {
  const Reference wanted = reference("embedding_network_reference.bin", 2, 128);
  const std::vector<float> got = StripNet::embedding().forward(wanted.planes);
  ASSERT_EQ(got.size(), wanted.answer.size());
  double worst = 0, largest = 0;
  for (size_t i = 0; i < got.size(); ++i) {
    worst = std::max(worst, std::abs(static_cast<double>(got[i]) - wanted.answer[i]));
    largest = std::max(largest, std::abs(static_cast<double>(wanted.answer[i])));
  }
  EXPECT_LT(worst, 1e-3 * largest);
}

TEST(StripNet, RefusesBytesThatAreNoNetworkAndInputsOfAnotherShape) {
  const std::vector<std::byte> noise(100, std::byte{7});
  EXPECT_THROW(StripNet(noise, "no network"), Error);
  EXPECT_THROW(StripNet::spots().forward({cv::Mat1f(kMapRows, kMapCols, 0.F)}), Error);
}

}  // namespace
}  // namespace evet
