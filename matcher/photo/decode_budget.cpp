#include "matcher/photo/decode_budget.h"

#include <condition_variable>
#include <mutex>

namespace evet {
namespace {

std::mutex mutex;
std::condition_variable freed;
std::uint64_t in_use = 0;

}  // namespace

DecodeShare::DecodeShare(std::uint64_t bytes) : bytes_(bytes) {
  std::unique_lock lock(mutex);
  freed.wait(lock, [&] { return in_use == 0 || in_use + bytes_ <= kAll; });
  in_use += bytes_;
}
DecodeShare::~DecodeShare() {
  {
    const std::lock_guard lock(mutex);
    in_use -= bytes_;
  }
  freed.notify_all();
}
std::uint64_t DecodeShare::taken() {
  const std::lock_guard lock(mutex);
  return in_use;
}

}  // namespace evet
