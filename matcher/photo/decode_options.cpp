#include "matcher/photo/decode_options.h"

#include "fmt/format.h"
#include "matcher/base/error.h"

namespace evet {

void DecodeOptions::check() const {
  if (!(max_megapixels > 0 && max_megapixels <= 1000))
    throw Error(ErrorKind::usage, "max_megapixels", fmt::format("{} is out of range", max_megapixels),
                "use more than 0 and at most 1000");
  if (enough_long_side_px < 0)
    throw Error(ErrorKind::usage, "enough_long_side_px", fmt::format("{} is negative", enough_long_side_px),
                "use 0 for full size, or a number of pixels");
}

}  // namespace evet
