#include "matcher/catalogue/serve_cache.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <memory>
#include <optional>

#include "matcher/catalogue/cache_rows.h"
#include "matcher/catalogue/cache_wire.h"
#include "matcher/catalogue/sql.h"

namespace evet {
namespace {

CacheRow row_in(SQLite::Statement& rows) {
  return {rows.getColumn(0).getString(), rows.getColumn(1).getString(), rows.getColumn(2).getString(),
          rows.getColumn(4).getString(), blob_in(rows, 3)};
}

class Server {
 public:
  explicit Server(std::unique_ptr<Connection> database) : database_(std::move(database)) {}
  std::optional<CacheRow> one(const CacheRow& named) {
    if (!database_) return std::nullopt;
    SQLite::Statement row(*database_, sql::kCacheGet);
    row.bind(1, named.photo);
    row.bind(2, named.what);
    row.bind(3, named.maker);
    if (!row.executeStep()) return std::nullopt;
    return CacheRow{named.photo, named.what, named.maker, row.getColumn(1).getString(), blob_in(row, 0)};
  }
  std::optional<CacheRow> next() {
    if (!database_) return std::nullopt;
    if (!all_) all_.emplace(*database_, sql::kCacheAll);
    if (!all_->executeStep()) return std::nullopt;
    return row_in(*all_);
  }

 private:
  std::unique_ptr<Connection> database_;
  std::optional<SQLite::Statement> all_;
};

}  // namespace

void serve_cache(Line& line, const std::string& name, bool with_wal) {
  Server server(cache_where_handed(name, with_wal));
  for (;;) {
    const auto wanted = static_cast<RowWanted>(line.get_value<std::uint8_t>());
    CacheRow named;
    if (wanted == RowWanted::named)
      for (std::string* text : {&named.photo, &named.what, &named.maker})
        *text = line.get_text(kLongestCacheName);
    std::optional<CacheRow> row;
    try {
      row = wanted == RowWanted::named ? server.one(named) : server.next();
    } catch (const SQLite::Exception&) {  // what cannot be read is not there
    }
    put_row(line, row);
  }
}

}  // namespace evet
