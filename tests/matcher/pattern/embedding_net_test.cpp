// The embedding network gives in OpenCV what it gave in PyTorch.
#include "matcher/pattern/embedding_net.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "tests/matcher/pattern/network_reference.h"

namespace evet {
namespace {

TEST(EmbeddingNet, AgreesWithTheFrameworkThatTrainedIt) {
  const NetworkReference wanted = network_reference("embedding_network_reference.bin", 2, 128);
  const std::vector<float> got = raw_embedding(wanted.planes);
  ASSERT_EQ(got.size(), wanted.answer.size());
  double worst = 0, largest = 0;
  for (size_t i = 0; i < got.size(); ++i) {
    worst = std::max(worst, std::abs(static_cast<double>(got[i]) - wanted.answer[i]));
    largest = std::max(largest, std::abs(static_cast<double>(wanted.answer[i])));
  }
  EXPECT_LT(worst, 1e-3 * largest);
}

}  // namespace
}  // namespace evet
