// Any bytes into decode_photo: a picture within the limits or an Error, never a crash, a leak or a hang.
// Start from the files that photo_seeds writes:
// decode_photo_fuzz -max_total_time=60 -rss_limit_mb=1024 CORPUS
#include <cstdint>
#include <cstdlib>

#include "matcher/base/error.h"
#include "matcher/photo/decode.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const evet::DecodeOptions options{.max_megapixels = 2, .enough_long_side_px = 64};
  try {
    const evet::Photo photo =
        evet::decode_photo({reinterpret_cast<const std::byte*>(data), size}, "fuzz", options);
    if (photo.bgr.empty() || photo.bgr.total() > 2'000'000 || photo.full_per_px < 1) std::abort();
    if (photo.header.orientation < 1 || photo.header.orientation > 8) std::abort();
  } catch (const evet::Error&) {
  }
  return 0;
}
