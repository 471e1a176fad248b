// Any bytes as an Exif block: facts or nothing, never an exception.
#include <cstdint>
#include <cstdlib>

#include "matcher/photo/exif.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const evet::ExifFacts facts = evet::read_exif({reinterpret_cast<const std::byte*>(data), size});
  if (facts.orientation < 1 || facts.orientation > 8) std::abort();
  if (facts.taken_at && facts.taken_at->size() != 19) std::abort();
  return 0;
}
