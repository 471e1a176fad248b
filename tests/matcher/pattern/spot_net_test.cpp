// The spot network gives in OpenCV what it gave in PyTorch.
#include "matcher/pattern/spot_net.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "tests/matcher/pattern/network_reference.h"

namespace evet {
namespace {

TEST(SpotNet, AgreesWithTheFrameworkThatTrainedIt) {
  const NetworkReference wanted = network_reference("spots_network_reference.bin", 3, 2 * kRows * kCols);
  const std::vector<float> got = spot_logits(wanted.planes);
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

TEST(SpotNet, RefusesInputsOfAnotherShape) {
  EXPECT_THROW(spot_logits({cv::Mat1f(kMapRows, kMapCols, 0.F)}), Error);
}

}  // namespace
}  // namespace evet
