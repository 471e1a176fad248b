#include "matcher/photo/decode_budget.h"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <memory>
#include <thread>
#include <vector>

namespace evet {
namespace {

TEST(DecodeBudget, IsNeverPassedByMany) {
  std::atomic<std::uint64_t> now{0}, most{0};
  std::vector<std::thread> threads;
  for (int t = 0; t < 8; ++t)
    threads.emplace_back([&] {
      for (int i = 0; i < 50; ++i) {
        const std::uint64_t bytes = DecodeShare::kAll / 3;
        const DecodeShare share(bytes);
        const std::uint64_t all = now += bytes;
        for (std::uint64_t seen = most; seen < all && !most.compare_exchange_weak(seen, all);) {
        }
        std::this_thread::yield();
        now -= bytes;
      }
    });
  for (std::thread& thread : threads) thread.join();
  EXPECT_LE(most, DecodeShare::kAll);
  EXPECT_EQ(DecodeShare::taken(), 0u);
}

TEST(DecodeBudget, LetsOneThatIsLargerThanAllInAlone) {
  auto share = std::make_unique<DecodeShare>(2 * DecodeShare::kAll);
  EXPECT_EQ(DecodeShare::taken(), 2 * DecodeShare::kAll);
  std::atomic<bool> in{false};
  std::thread other([&] {
    const DecodeShare small(1);
    in = true;
  });
  std::this_thread::sleep_for(std::chrono::milliseconds(20));
  EXPECT_FALSE(in);
  share.reset();
  other.join();
  EXPECT_TRUE(in);
}

}  // namespace
}  // namespace evet
