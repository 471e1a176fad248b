// Any bytes over a socket: where a request ends does not depend on the pieces in which it came.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "tools/review/front.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace evet::review;
  const FrontLimits limits{.head_bytes = 256, .body_bytes = 64};
  const std::string all(reinterpret_cast<const char*>(data), size);
  const RequestEnd whole = request_end(all, limits);
  if (whole.bytes > all.size()) std::abort();
  if (whole.state == RequestEnd::whole && whole.bytes > limits.head_bytes + 4 + limits.body_bytes)
    std::abort();
  for (std::size_t n = 1; n <= all.size() && n < 1024; ++n) {
    const RequestEnd some = request_end(all.substr(0, n), limits);
    if (some.state == RequestEnd::unfinished) continue;
    if (some.state == RequestEnd::too_large) break;
    if (some.state != whole.state || some.bytes != whole.bytes) std::abort();
    break;
  }
  return 0;
}
