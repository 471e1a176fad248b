// A tenth of the degenerate data sets: never a figure that is not a number, never a hang, never silence. All
// ten thousand run in models_degenerate_bench.
#include "degenerate.h"

#include <gtest/gtest.h>

#include <ctime>

namespace evet::models {
namespace {

TEST(Degenerate, AnEstimateAnInfiniteBoundOrAReason) {
  int refused_count = 0;
  double worst = 0;
  for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
    const std::clock_t start = std::clock();
    bool refused = false;
    EXPECT_EQ(testing::degenerate_faults(seed, refused), "");
    refused_count += refused ? 1 : 0;
    worst = std::max(worst, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  EXPECT_LT(worst, 10) << "seconds of one processor for one data set";
  EXPECT_LT(refused_count, 150) << "only a robust design without periods is refused";
  std::printf("  1000 data sets, %d refused with a reason, slowest %.2f s\n", refused_count, worst);
}

}  // namespace
}  // namespace evet::models
