// The corridor's first half in one call: the bytes of a photo in, everything the catalogue keeps of it out.
#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <string>

#include "matcher/belly/find_belly.h"
#include "matcher/pattern/make_pattern.h"
#include "matcher/photo/decode.h"

namespace evet {

struct ExamineOptions {
  DecodeOptions decode{.enough_long_side_px =
                           1600};  // a strip is 512 pixels long: more adds time, not evidence
  BellyOptions belly;
  PatternOptions pattern;
};

struct Examined {
  PhotoHeader header;
  BellyFinding belly;
  std::optional<Pattern> pattern;  // present when belly.usable()
};

// Errors: those of decode_photo. A photo without a belly is not an error: see belly.notes.
Examined examine_photo(std::span<const std::byte> file, const std::string& item,
                       const ExamineOptions& options = {});

}  // namespace evet
