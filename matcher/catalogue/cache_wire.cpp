#include "matcher/catalogue/cache_wire.h"

#include "matcher/catalogue/sql.h"

namespace evet {

void put_row(Line& line, const std::optional<CacheRow>& row) {
  line.put_value<std::uint8_t>(row.has_value());
  if (!row) return;
  for (const std::string* text : {&row->photo, &row->what, &row->maker, &row->sum})
    line.put_text(text->substr(0, kLongestCacheName));
  line.put_text({reinterpret_cast<const char*>(row->bytes.data()), row->bytes.size()});
}

std::optional<CacheRow> take_row(Line& line) {
  if (line.get_value<std::uint8_t>() == 0) return std::nullopt;
  CacheRow row;
  for (std::string* text : {&row.photo, &row.what, &row.maker, &row.sum})
    *text = line.get_text(kLongestCacheName);
  const std::string bytes = line.get_text(sql::kLongestValue);
  const auto* from = reinterpret_cast<const std::byte*>(bytes.data());
  row.bytes.assign(from, from + bytes.size());
  return row;
}

}  // namespace evet
