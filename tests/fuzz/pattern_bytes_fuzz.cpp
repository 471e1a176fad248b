// Any bytes as a kept pattern: nothing, or a pattern that matching can take, which as bytes is read again.
#include <cstdint>
#include <cstdlib>

#include "matcher/catalogue/pattern_bytes.h"
#include "matcher/search/compare.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace evet;
  const auto pattern = pattern_of({reinterpret_cast<const std::byte*>(data), size});
  if (!pattern) return 0;
  const auto again = pattern_of(bytes_of(*pattern));
  if (!again || bytes_of(*again) != bytes_of(*pattern)) std::abort();
  if (pattern->spots.size() < 40) cosine_similarity(prepare(*pattern), *again);
  return 0;
}
