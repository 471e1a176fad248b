// The strip networks give in OpenCV what they gave in PyTorch, which trained and exported them.
#include "matcher/pattern/strip_net.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/pattern/pattern.h"

namespace evet {
namespace {

constexpr int kStep = 8, kRows = kMapRows / kStep, kCols = kMapCols / kStep;

// Small planes and what the network gave for them, each number of a plane standing for kStep x kStep pixels.
// Layout: tools/train/train_strip.py, export_all(), and train_pair.py, save().
struct Reference {
  std::vector<cv::Mat1f> planes;
  std::vector<float> answer;
};
Reference reference(const std::string& name, int planes, size_t answers, int rows = kRows, int cols = kCols) {
  std::ifstream in(std::string(EVET_TEST_DATA) + "/" + name, std::ios::binary);
  Reference out;
  out.answer.resize(answers);
  for (int k = 0; k < planes; ++k) {
    cv::Mat1f small(rows, cols), plane;
    in.read(reinterpret_cast<char*>(small.data), static_cast<std::streamsize>(small.total() * sizeof(float)));
    cv::resize(small, plane, {}, kStep, kStep, cv::INTER_NEAREST);
    out.planes.push_back(plane);
  }
  in.read(reinterpret_cast<char*>(out.answer.data()), static_cast<std::streamsize>(answers * sizeof(float)));
  EXPECT_TRUE(in) << name << " is missing or short";
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

TEST(StripNet, PairsAgreeWithTheFrameworkThatTrainedThem) {
  constexpr size_t kPairs = 4, kPlanes = 4;
  const Reference wanted =
      reference("pairs_network_reference.bin", kPairs * kPlanes, kPairs, kRows / 2, kCols / 2);
  for (size_t i = 0; i < kPairs; ++i) {
    const auto first = wanted.planes.begin() + static_cast<std::ptrdiff_t>(i * kPlanes);
    const std::vector<float> got = StripNet::pairs().forward({first, first + kPlanes});
    ASSERT_EQ(got.size(), 1U);
    EXPECT_NEAR(got[0], wanted.answer[i], 1e-3 * std::max(1.F, std::abs(wanted.answer[i])));
  }
}

TEST(StripNet, RefusesBytesThatAreNoNetworkAndInputsOfAnotherShape) {
  const std::vector<std::byte> noise(100, std::byte{7});
  EXPECT_THROW(StripNet(noise, "no network"), Error);
  EXPECT_THROW(StripNet::spots().forward({cv::Mat1f(kMapRows, kMapCols, 0.F)}), Error);
  EXPECT_THROW(StripNet::pairs().forward({3, cv::Mat1f(kMapRows / 2, kMapCols / 2, 0.F)}), Error);
}

}  // namespace
}  // namespace evet
