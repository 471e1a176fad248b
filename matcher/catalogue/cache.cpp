#include "matcher/catalogue/cache.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <spdlog/spdlog.h>
#include <sqlite3.h>

#include <system_error>

#include "matcher/base/error.h"
#include "matcher/catalogue/pattern_bytes.h"
#include "matcher/catalogue/sql.h"

namespace evet {

struct Cache::Parts {
  std::filesystem::path file;
  bool writable = false;
  bool network = false;
  bool told = false;  // a disk that fails, fails for every photo: said once
  std::unique_ptr<SQLite::Database> database;

  void open() {
    const int flags = writable ? SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE : SQLite::OPEN_READONLY;
    database = std::make_unique<SQLite::Database>(file.string(), flags, 2000);
    if (!writable) return;
    database->exec(network ? sql::kCacheNetwork : sql::kCacheLocal);
    database->exec(sql::kCacheSchema);
  }

  // A cache that cannot be read is worth nothing: away with it, and once more.
  void replace() {
    database.reset();
    for (const char* tail : {"", "-wal", "-shm", "-journal"}) {
      std::error_code ignored;
      std::filesystem::remove(file.string() + tail, ignored);
    }
    try {
      open();
    } catch (const SQLite::Exception& error) {
      spdlog::warn("cache: {} cannot be used ({}); patterns are made again each time", file.string(),
                   error.what());
      database.reset();
    }
  }

  std::optional<Bytes> get(const PhotoId& photo, const char* what, const std::string& maker) {
    if (!database) return std::nullopt;
    try {
      SQLite::Statement row(*database, sql::kCacheGet);
      row.bind(1, photo.value);
      row.bind(2, what);
      row.bind(3, maker);
      if (!row.executeStep()) return std::nullopt;
      const SQLite::Column column = row.getColumn(0);
      const auto* from = static_cast<const std::byte*>(column.getBlob());
      return Bytes(from, from + column.getBytes());
    } catch (const SQLite::Exception& error) {
      failed(error);
      return std::nullopt;
    }
  }

  void keep(const PhotoId& photo, const char* what, const std::string& maker, BytesView bytes) {
    if (!database || !writable) return;
    try {
      SQLite::Statement row(*database, sql::kCacheKeep);
      row.bind(1, photo.value);
      row.bind(2, what);
      row.bind(3, maker);
      row.bind(4, bytes.data(), static_cast<int>(bytes.size()));
      row.exec();
    } catch (const SQLite::Exception& error) {
      failed(error);
    }
  }

  void failed(const SQLite::Exception& error) {
    if (!told)
      spdlog::warn("cache: {} cannot be used ({}); nothing is lost, patterns are made again each time",
                   file.string(), error.what());
    told = true;
    const int code = error.getErrorCode();
    if (writable && (code == SQLITE_CORRUPT || code == SQLITE_NOTADB || code == SQLITE_ERROR)) replace();
  }
};

Cache::Cache(const std::filesystem::path& folder, Env& env, bool writable)
    : parts_(std::make_unique<Parts>()) {
  parts_->file = folder / "patterns.sqlite";
  parts_->network = env.exists(folder) && env.on_network_drive(folder);
  parts_->writable = writable;
  try {
    if (writable) env.make_folders(folder);
    if (!writable && !env.exists(parts_->file)) return;
    parts_->open();
  } catch (const SQLite::Exception&) {
    if (writable)
      parts_->replace();
    else
      parts_->database.reset();
  } catch (const Error& error) {
    spdlog::warn("cache: {}", error.what());
  }
}
Cache::Cache(Cache&&) noexcept = default;
Cache& Cache::operator=(Cache&&) noexcept = default;
Cache::~Cache() = default;

bool Cache::usable() const {
  return parts_->database != nullptr && parts_->writable;
}

std::optional<Pattern> Cache::pattern(const PhotoId& photo, const std::string& maker) {
  const auto bytes = parts_->get(photo, "pattern", maker);
  return bytes ? pattern_of(*bytes) : std::nullopt;
}
void Cache::keep_pattern(const PhotoId& photo, const std::string& maker, const Pattern& pattern) {
  parts_->keep(photo, "pattern", maker, bytes_of(pattern));
}
std::optional<Bytes> Cache::strip(const PhotoId& photo, const std::string& maker) {
  return parts_->get(photo, "strip", maker);
}
void Cache::keep_strip(const PhotoId& photo, const std::string& maker, BytesView picture) {
  parts_->keep(photo, "strip", maker, picture);
}

}  // namespace evet
