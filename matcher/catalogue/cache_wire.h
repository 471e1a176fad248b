// How rows of a cache cross between the process apart that reads it (serve_cache.h) and whoever asks (cache_apart.h).
#pragma once
#include <cstdint>
#include <optional>
#include <string>

#include "matcher/base/env.h"
#include "matcher/photo/wire.h"

namespace evet {

struct CacheRow {
  std::string photo, what, maker, sum;
  Bytes bytes;
};

enum class RowWanted : std::uint8_t { named, next };

// Of the names of a row; what is longer is cut off.
inline constexpr std::size_t kLongestCacheName = 1000;

void put_row(Line& line, const std::optional<CacheRow>& row);
std::optional<CacheRow> take_row(Line& line);  // Errors: LineBroken, also for what is too long

}  // namespace evet
