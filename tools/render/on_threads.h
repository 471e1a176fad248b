// Independent jobs on several threads; the first failure stops the rest and is thrown again.
#pragma once
#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace evet::render {

template <class Job>
void on_threads(std::size_t jobs, int threads, const Job& job) {
  std::atomic<std::size_t> next{0};
  std::mutex failure_lock;
  std::exception_ptr failure;
  const auto work = [&] {
    for (std::size_t i; (i = next++) < jobs;) try {
        job(i);
      } catch (...) {
        const std::lock_guard<std::mutex> lock(failure_lock);
        if (!failure) failure = std::current_exception();
        next = jobs;
      }
  };
  std::vector<std::thread> workers;
  workers.reserve(static_cast<std::size_t>(std::max(threads, 0)));
  for (int i = 0; i < threads; ++i) workers.emplace_back(work);
  for (std::thread& worker : workers) worker.join();
  if (failure) std::rethrow_exception(failure);
}

}  // namespace evet::render
