#include "matcher/base/parallel.h"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <thread>
#include <vector>

namespace evet {
namespace {

TEST(ForEachItem, DoesEveryItemOnceAtAnyNumberOfThreads) {
  for (const int threads : {-1, 1, 2, 7}) {
    std::vector<std::atomic<int>> done(50);
    for_each_item(done.size(), threads, [&](std::size_t i) { ++done[i]; });
    for (const auto& times : done) EXPECT_EQ(times, 1) << threads;
  }
  for_each_item(0, 4, [](std::size_t) { FAIL(); });
}

TEST(ForEachItem, HandsOnWhatWasThrownAndStartsNoMore) {
  std::atomic<int> started{0};
  const auto work = [&](std::size_t i) {
    ++started;
    if (i == 3) throw std::runtime_error("the fourth");
    // Items of some length: done in no time, all could be over before the exception has got out.
    if (i > 3) std::this_thread::sleep_for(std::chrono::microseconds(50));
  };
  EXPECT_THROW(for_each_item(100'000, 3, work), std::runtime_error);
  EXPECT_LT(started, 100'000);
}

}  // namespace
}  // namespace evet
