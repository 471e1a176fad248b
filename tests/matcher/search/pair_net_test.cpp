// The pair network gives in OpenCV what it gave in PyTorch.
#include "matcher/search/pair_net.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "tests/matcher/pattern/network_reference.h"

namespace evet {
namespace {

TEST(PairNet, AgreesWithTheFrameworkThatTrainedIt) {
  constexpr size_t kPairs = 4, kPlanes = 4;
  const NetworkReference wanted =
      network_reference("pairs_network_reference.bin", kPairs * kPlanes, kPairs, kRows / 2, kCols / 2);
  for (size_t i = 0; i < kPairs; ++i) {
    const auto first = wanted.planes.begin() + static_cast<std::ptrdiff_t>(i * kPlanes);
    const double got = judged(std::vector<cv::Mat1f>{first, first + kPlanes});
    EXPECT_NEAR(got, wanted.answer[i], 1e-3 * std::max(1.F, std::abs(wanted.answer[i])));
  }
}

TEST(PairNet, RefusesInputsOfAnotherShape) {
  EXPECT_THROW(judged(std::vector<cv::Mat1f>(3, cv::Mat1f(kMapRows / 2, kMapCols / 2, 0.F))), Error);
}

}  // namespace
}  // namespace evet
