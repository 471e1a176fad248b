// A Pattern as bytes for the cache. Little-endian, LZ4-packed maps, a version in front; not a format to keep.
#pragma once
#include <optional>

#include "matcher/base/env.h"
#include "matcher/pattern/pattern.h"

namespace evet {

Bytes bytes_of(const Pattern& pattern);
// Nothing when the bytes are damaged, of another version, or hold what make_pattern() never gives: maps of
// another size, numbers out of range or none.
std::optional<Pattern> pattern_of(BytesView bytes);

}  // namespace evet
