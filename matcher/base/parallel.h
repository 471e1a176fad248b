// A loop over independent items on a few threads.
#pragma once
#include <cstddef>
#include <functional>

namespace evet {

// Calls work(i) for every i below `count`, on at most `threads` threads, the caller's among them. What the
// calls write must not overlap; then the outcome is the same at any number of threads. The first exception
// stops further items from starting and is thrown here once all threads are done.
void for_each_item(std::size_t count, int threads, const std::function<void(std::size_t)>& work);

}  // namespace evet
