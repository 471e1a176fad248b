#include "matcher/catalogue/cache.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <spdlog/spdlog.h>
#include <sqlite3.h>

#include <cctype>
#include <system_error>

#include "matcher/base/error.h"
#include "matcher/base/uuid.h"
#include "matcher/catalogue/cache_apart.h"
#include "matcher/catalogue/cache_rows.h"
#include "matcher/catalogue/database.h"
#include "matcher/catalogue/guarded_files.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/own_databases.h"
#include "matcher/catalogue/pattern_bytes.h"
#include "matcher/catalogue/read_apart.h"
#include "matcher/catalogue/sql.h"

namespace evet {

namespace {

namespace fs = std::filesystem;

constexpr const char* kFileName = "patterns.sqlite";

bool holds_anything(const fs::path& file) {
  std::error_code ignored;
  return fs::exists(fs::symlink_status(file, ignored)) && fs::file_size(file, ignored) != 0;
}

// How a reader opens it, making no file beside it. With nothing beside it: no lock; what a writer that begins
// meanwhile tears is shown by the sums. Beside a writer, or what a stopped one left: through its -wal, since
// the file alone may be torn. Empty where that cannot be: then it is not read.
std::string reading_uri(const fs::path& file) {
  const std::string name = file.string();
  const bool changes = holds_anything(name + "-wal");
  if (holds_anything(name + "-journal") || (changes && !holds_anything(name + "-shm"))) return {};
  static constexpr char kHex[] = "0123456789ABCDEF";
  std::string uri = "file:";
  for (const char c : fs::absolute(file).string())
    if (const auto byte = static_cast<unsigned char>(c);
        std::isalnum(byte) != 0 || c == '/' || c == '.' || c == '-')
      uri += c;
    else
      uri += std::string("%") + kHex[byte >> 4] + kHex[byte & 15];
  return uri + (changes ? "?readonly_shm=1" : "?immutable=1");
}

bool is_whole(const CacheRow& row) {
  return row.sum == cache_sum(row.photo, row.what, row.maker, row.bytes) &&
         (row.what != "pattern" || pattern_of(row.bytes));
}

void keep_row(SQLite::Statement& into, const CacheRow& row) {
  into.tryReset();
  into.bind(1, row.photo);
  into.bind(2, row.what);
  into.bind(3, row.maker);
  into.bind(4, row.bytes.data(), static_cast<int>(row.bytes.size()));
  into.bind(5, row.sum);
  into.exec();
}

}  // namespace

struct Cache::Parts {
  fs::path file;
  Env* env = nullptr;
  bool writable = false;
  bool network = false;
  bool warned = false;  // a disk that fails, fails for every photo: said once
  std::optional<GuardedFiles> guard;
  std::unique_ptr<Connection> database;
  std::unique_ptr<CacheApart> apart;  // instead of `database`, of a file from elsewhere

  ~Parts() { database.reset(); }  // before its guard

  // What lies there already and is no cache of this version is not opened further.
  void open() {
    if (journal_names_a_file(file)) throw not_a_cache(messages::kCacheJournalForeign);
    const std::string uri = writable ? std::string() : reading_uri(file);
    if (!writable && uri.empty()) throw not_a_cache(messages::kCacheHalfWritten);
    guard.emplace(writable);
    const int flags =
        writable ? SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE : SQLite::OPEN_READONLY | SQLite::OPEN_URI;
    database = std::make_unique<Connection>(writable ? file.string() : uri, flags, 2000, guard->name());
    arm(*database, writable);
    if (writable && schema_of(*database).empty()) {
      database->exec(sql::kCacheSchema);
      remember_as_own(file, *env);
    }
    if (schema_of(*database) != cache_schema_as_made()) throw not_a_cache(messages::kCacheTablesForeign);
    if (writable) database->exec(network ? sql::kCacheNetwork : sql::kCacheLocal);
  }
  Error not_a_cache(const Message& why) const {
    return {ErrorKind::bad_input, file.string(), Message(messages::kIsNoCacheOfVersion, {{"why", why}})};
  }
  void warn(const MessageText& what, const std::exception& why) const {
    spdlog::warn(Message(what, {{"file", file.string()}, {"why", std::string(why.what())}}).words());
  }
  void close() {
    database.reset();
    guard.reset();
  }

  // A cache that cannot be read is worth nothing: away with it, and once more.
  void replace() {
    close();
    for (const char* tail : {"", "-wal", "-shm", "-journal"}) {
      std::error_code ignored;
      fs::remove(file.string() + tail, ignored);
    }
    try {
      open();
    } catch (const std::exception& error) {
      warn(messages::kCacheCannotBeUsed, error);
      close();
    }
  }

  void open_apart() {
    if (journal_names_a_file(file) || reading_uri(file).empty()) return;
    try {
      apart =
          std::make_unique<CacheApart>(*ReadersApart::in_use(), file, holds_anything(file.string() + "-wal"));
    } catch (const LineBroken&) {  // then there is none
    }
  }

  // What another made, as far as its rows are as they were written, in a file of one's own that takes its place.
  void take_over() {
    const fs::path part = file.string() + ".part-" + uuid7(system_env());
    open_apart();
    try {
      Connection fresh(part.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
      fresh.exec(sql::kCacheSchema);
      fresh.exec(sql::kBegin);
      SQLite::Statement keep(fresh, sql::kCacheKeep);
      while (auto row = next_apart()) keep_row(keep, *row);
      fresh.exec(sql::kCommit);
    } catch (const SQLite::Exception&) {
      env->remove(part);
      throw;
    }
    apart.reset();
    for (const char* tail : {"-wal", "-shm", "-journal"}) env->remove(file.string() + tail);
    env->rename(part, file);
    remember_as_own(file, *env);
  }
  // One that is whole; nothing at the end, or where its reader broke.
  std::optional<CacheRow> next_apart() try {
    std::optional<CacheRow> row;
    while (apart && (row = apart->next()) && !is_whole(*row)) continue;
    return row;
  } catch (const LineBroken&) {
    return std::nullopt;
  }
  std::optional<Bytes> get_apart(const PhotoId& photo, const char* what, const std::string& maker) try {
    auto row = apart->get(photo.value, what, maker);
    if (!row || !is_whole(*row)) return std::nullopt;
    return std::move(row->bytes);
  } catch (const LineBroken&) {
    apart.reset();
    return std::nullopt;
  }

  std::optional<Bytes> get(const PhotoId& photo, const char* what, const std::string& maker) {
    if (apart) return get_apart(photo, what, maker);
    if (!database) return std::nullopt;
    try {
      SQLite::Statement row(*database, sql::kCacheGet);
      row.bind(1, photo.value);
      row.bind(2, what);
      row.bind(3, maker);
      if (!row.executeStep()) return std::nullopt;
      Bytes bytes = blob_in(row, 0);
      if (row.getColumn(1).getString() != cache_sum(photo.value, what, maker, bytes)) return std::nullopt;
      return bytes;
    } catch (const SQLite::Exception& error) {
      failed(error);
      return std::nullopt;
    }
  }

  void keep(const PhotoId& photo, const char* what, const std::string& maker, BytesView bytes) {
    if (!database || !writable) return;
    try {
      SQLite::Statement row(*database, sql::kCacheKeep);
      keep_row(row, {photo.value, what, maker, cache_sum(photo.value, what, maker, bytes),
                     Bytes(bytes.begin(), bytes.end())});
    } catch (const SQLite::Exception& error) {
      failed(error);
    }
  }

  void failed(const SQLite::Exception& error) {
    if (!warned) warn(messages::kCacheFailed, error);
    warned = true;
    const int code = error.getErrorCode();
    if (writable && (code == SQLITE_CORRUPT || code == SQLITE_NOTADB || code == SQLITE_ERROR)) replace();
  }
};

Cache::Cache() : parts_(std::make_unique<Parts>()) {}
Cache::Cache(const fs::path& folder, Env& env, bool writable) : parts_(std::make_unique<Parts>()) {
  parts_->file = folder / kFileName;
  parts_->env = &env;
  parts_->network = env.exists(folder) && env.on_network_drive(folder);
  parts_->writable = writable;
  try {
    if (writable) env.make_folders(folder);
    if (env.facts(folder).kind != FileKind::folder) return;
    const FileKind kind = env.facts(parts_->file).kind;
    if (!writable && kind != FileKind::file) return;
    const bool foreign = kind == FileKind::file && from_elsewhere(parts_->file, env);
    if (foreign && !writable) {
      parts_->open_apart();
      return;
    }
    if (foreign) parts_->take_over();
    if (kind == FileKind::file || kind == FileKind::none)
      parts_->open();
    else
      parts_->replace();
  } catch (const SQLite::Exception&) {
    if (writable)
      parts_->replace();
    else
      parts_->close();
  } catch (const Error& error) {
    parts_->close();
    if (writable && error.kind() == ErrorKind::bad_input && env.facts(folder).kind == FileKind::folder)
      parts_->replace();
    else if (writable)
      spdlog::warn("cache: {}", error.what());
  }
}
Cache::Cache(Cache&&) noexcept = default;
Cache& Cache::operator=(Cache&&) noexcept = default;
Cache::~Cache() = default;

bool Cache::usable() const {
  return parts_->database != nullptr && parts_->writable;
}

// A program that wrote meanwhile may have torn what was read: then a second look, beside it.
std::vector<PhotoId> Cache::damaged() {
  std::vector<PhotoId> photos = look_for_damage();
  if (photos.empty() || parts_->writable) return photos;
  parts_->close();
  try {
    parts_->open();
  } catch (const SQLite::Exception&) {
    parts_->close();
    return {PhotoId()};
  } catch (const Error&) {  // what was read is not there any more
    parts_->close();
    return {};
  }
  return look_for_damage();
}

std::vector<PhotoId> Cache::look_for_damage() {
  return parts_->database ? damaged_rows(*parts_->database) : std::vector<PhotoId>();
}

std::vector<PhotoId> Cache::damaged_apart(const fs::path& folder, Env& env, const ReadersApart& readers) {
  const fs::path file = folder / kFileName;
  if (env.facts(folder).kind != FileKind::folder || env.facts(file).kind != FileKind::file) return {};
  std::vector<PhotoId> photos;
  // Twice, since a program that wrote meanwhile may have torn what was read.
  for (int look = 0; look < 2; ++look) {
    if (journal_names_a_file(file) || reading_uri(file).empty()) return {};
    try {
      photos = readers.damaged_in_cache(file, holds_anything(file.string() + "-wal"));
    } catch (const Error&) {
      photos = {PhotoId()};
    }
    if (photos.empty()) break;
  }
  return photos;
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
