#include "matcher/photo/decode.h"

#include <optional>

#include "matcher/photo/decode_budget.h"
#include "matcher/photo/decode_here.h"
#include "matcher/photo/decoders.h"

namespace evet {

PhotoHeader read_photo_header(std::span<const std::byte> file, const std::string& item,
                              const DecodeOptions& options) {
  options.check();
  if (Decoders* apart = Decoders::in_use()) return apart->header(file, item, options);
  return read_header_here(file, item, options);
}

Photo decode_photo(std::span<const std::byte> file, const std::string& item, const DecodeOptions& options) {
  options.check();
  if (Decoders* apart = Decoders::in_use()) return apart->decode(file, item, options);
  std::optional<DecodeShare> share;
  return decode_here(file, item, options, [&](std::uint64_t bytes) { share.emplace(bytes); });
}

}  // namespace evet
