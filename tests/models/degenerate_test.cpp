// A tenth of the degenerate data sets: never a figure that is not a number, never a hang, never silence. All
// ten thousand run in models_degenerate_bench. A case is a family of models, so that they run beside each other;
// together they try the data sets 1 to 1,000.
#include "degenerate.h"

#include <gtest/gtest.h>

#include <ctime>

namespace evet::models {
namespace {

bool robust_without_periods(std::uint64_t seed) {
  if (testing::degenerate_request(seed).design != "robust") return false;
  const std::vector<int> periods = testing::degenerate_histories(seed).primary;
  return periods.empty() || periods.front() == periods.back();
}

// Every fifth data set is of one family. A robust design of less than two periods is refused, and nothing else.
void try_sets(std::uint64_t from, std::uint64_t to, std::uint64_t family) {
  double worst = 0;
  for (std::uint64_t seed = from; seed <= to; ++seed) {
    if (seed % 5 != family) continue;
    const std::clock_t start = std::clock();
    bool refused = false;
    EXPECT_EQ(testing::degenerate_faults(seed, refused), "");
    EXPECT_EQ(refused, robust_without_periods(seed)) << "data set " << seed;
    worst = std::max(worst, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  EXPECT_LT(worst, 10) << "seconds of one processor for one data set";
  std::printf("  slowest %.2f s\n", worst);
}

// Numbers of a closed population: nobody or everybody caught again, so that a chance of capture is 0 or 1 and the
// number has no bound; with every plot.
TEST(Degenerate, Closed) {
  try_sets(1, 1000, 0);
}
// Survival and numbers of an open one: intervals in which nobody was seen, nobody survived, or all did; numbers
// before the first and after the last occasion. Half of the time of all: in two parts.
TEST(Degenerate, OpenFirstHalf) {
  try_sets(1, 500, 1);
}
TEST(Degenerate, OpenSecondHalf) {
  try_sets(501, 1000, 1);
}
// A robust design with periods of one occasion, or none; and what is chosen where nobody says.
TEST(Degenerate, RobustAndUnasked) {
  try_sets(1, 1000, 2);
}
// By card: covariates that separate those caught again from the rest, and the estimators in closed form, which
// divide by counts that are zero.
TEST(Degenerate, ConditionalAndClosedForms) {
  try_sets(1, 1000, 3);
}
// By card: as many parameters as the data could ever bear, most of which nothing tells.
TEST(Degenerate, SurvivalOfManyParameters) {
  try_sets(1, 1000, 4);
}

}  // namespace
}  // namespace evet::models
