// Any bytes as a request to the review page (see tests/tools/review/fuzzed_request.h). Start it on a copy of
// tests/data/review_requests; what it finds goes there, and is asked again by the ordinary tests.
#include <cstdint>
#include <cstdlib>

#include "tests/tools/review/fuzzed_request.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static evet::try_out::FuzzedPage page;
  if (!page.fit(page.answer({reinterpret_cast<const char*>(data), size}))) std::abort();
  return 0;
}
