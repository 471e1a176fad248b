#include "matcher/catalogue/cache_apart.h"

#include <system_error>
#include <tuple>

namespace evet {
namespace {

constexpr int kSeconds = 60;  // for a row

}  // namespace

CacheApart::CacheApart(const ReadersApart& readers, const std::filesystem::path& file, bool with_wal)
    : reader_(readers.with_cache(file, with_wal)) {
  const auto size = [&](const char* tail) {
    std::error_code none;
    const auto bytes = std::filesystem::file_size(file.string() + tail, none);
    return none ? 0 : bytes;
  };
  left_ = 2 * (size("") + (with_wal ? size("-wal") : 0));
}

std::optional<CacheRow> CacheApart::get(const std::string& photo, const std::string& what,
                                        const std::string& maker) {
  Line& line = reader_->line;
  line.allow_seconds(kSeconds);
  line.put_value(RowWanted::named);
  for (const std::string* text : {&photo, &what, &maker}) line.put_text(text->substr(0, kLongestCacheName));
  std::optional<CacheRow> row = take_row(line);
  if (row && std::tie(row->photo, row->what, row->maker) != std::tie(photo, what, maker))
    throw LineBroken("another row than was asked for");
  return row;
}

std::optional<CacheRow> CacheApart::next() {
  reader_->line.allow_seconds(kSeconds);
  reader_->line.put_value(RowWanted::next);
  std::optional<CacheRow> row = take_row(reader_->line);
  constexpr std::uint64_t kLeast = 100;  // of a row: two hashes in hex, and more
  const std::uint64_t bytes = row ? kLeast + row->bytes.size() : 0;
  if (bytes > left_) throw LineBroken("more than the file could hold");
  left_ -= bytes;
  return row;
}

}  // namespace evet
