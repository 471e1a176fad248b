#include "matcher/catalogue/cache_rows.h"

#include "matcher/base/sha256.h"
#include "matcher/catalogue/pattern_bytes.h"
#include "matcher/catalogue/sql.h"

namespace evet {

std::string cache_sum(const std::string& photo, const std::string& what, const std::string& maker,
                      BytesView bytes) {
  return sha256_hex(photo + "\n" + what + "\n" + maker + "\n" + sha256_hex(bytes));
}

Bytes blob_in(SQLite::Statement& row, int at) {
  const SQLite::Column column = row.getColumn(at);
  const auto* from = static_cast<const std::byte*>(column.getBlob());
  return from == nullptr ? Bytes() : Bytes(from, from + column.getBytes());
}

const std::map<std::string, std::string>& cache_schema_as_made() {
  static const std::map<std::string, std::string> made = [] {
    Connection fresh(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    fresh.exec(sql::kCacheSchema);
    return schema_of(fresh);
  }();
  return made;
}

std::vector<PhotoId> damaged_rows(Connection& database) {
  std::vector<PhotoId> photos;
  try {
    SQLite::Statement row(database, sql::kCacheAll);
    while (row.executeStep()) {
      const std::string photo = row.getColumn(0).getString(), what = row.getColumn(1).getString();
      const Bytes bytes = blob_in(row, 3);
      const bool whole =
          row.getColumn(4).getString() == cache_sum(photo, what, row.getColumn(2).getString(), bytes) &&
          (what != "pattern" || pattern_of(bytes));
      if (!whole) photos.emplace_back(photo);
    }
  } catch (const SQLite::Exception&) {
    photos.emplace_back();
  }
  return photos;
}

// Without locks, which whoever handed it over cannot hold either; a -wal is read as by one who is alone
// (sqlite.org/wal.html, "Use of WAL Without Shared-Memory").
std::unique_ptr<Connection> cache_where_handed(const std::string& name, bool with_wal) {
  try {
    auto database = std::make_unique<Connection>(with_wal ? name : "file:" + name + "?immutable=1",
                                                 SQLite::OPEN_READONLY | (with_wal ? 0 : SQLite::OPEN_URI));
    if (with_wal) database->exec(sql::kAlone);
    arm(*database, false);
    if (schema_of(*database) == cache_schema_as_made()) return database;
  } catch (const SQLite::Exception&) {
  }
  return nullptr;
}

}  // namespace evet
