#include "matcher/photo/decode_options.h"

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/photo/messages.h"

namespace evet {

void DecodeOptions::check() const {
  if (!(max_megapixels > 0 && max_megapixels <= 1000))
    throw Error(ErrorKind::usage, "max_megapixels",
                Message(messages::kOutOfRange, {{"text", fmt::format("{}", max_megapixels)}}),
                messages::kUseMoreThan0And);
  if (enough_long_side_px < 0)
    throw Error(ErrorKind::usage, "enough_long_side_px",
                Message(messages::kIsNegativePhoto,
                        {{"enough_long_side_px", fmt::format("{}", enough_long_side_px)}}),
                messages::kUse0ForFullSize);
}

}  // namespace evet
