#include "matcher/base/parallel.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace evet {

void for_each_item(std::size_t count, int threads, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  std::atomic<bool> stop{false};
  std::mutex mutex;
  std::exception_ptr first;
  const auto run = [&] {
    for (std::size_t i = next++; i < count && !stop; i = next++) {
      try {
        work(i);
      } catch (...) {
        const std::lock_guard lock(mutex);
        if (!first) first = std::current_exception();
        stop = true;
      }
    }
  };
  const std::size_t helpers =
      std::min(count, static_cast<std::size_t>(std::max(threads, 1))) - (count > 0 ? 1 : 0);
  std::vector<std::jthread> pool;
  for (std::size_t t = 0; t < helpers; ++t) pool.emplace_back(run);
  run();
  pool.clear();  // joins
  if (first) std::rethrow_exception(first);
}

}  // namespace evet
