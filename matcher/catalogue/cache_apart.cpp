#include "matcher/catalogue/cache_apart.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <cstdint>
#include <system_error>
#include <tuple>

#include "matcher/catalogue/cache_rows.h"
#include "matcher/catalogue/sql.h"

namespace evet {
namespace {

enum class Wanted : std::uint8_t { one, next };

constexpr std::size_t kLongestName = 1000, kLongestRow = sql::kLongestValue;
constexpr int kSeconds = 60;  // for a row

std::string text_of(const Bytes& bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

void say(Line& line, const std::optional<CacheRow>& row) {
  line.put_value<std::uint8_t>(row.has_value());
  if (!row) return;
  for (const std::string* text : {&row->photo, &row->what, &row->maker, &row->sum})
    line.put_text(text->substr(0, kLongestName));
  line.put_text(text_of(row->bytes));
}

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
    const auto wanted = static_cast<Wanted>(line.get_value<std::uint8_t>());
    CacheRow named;
    if (wanted == Wanted::one)
      for (std::string* text : {&named.photo, &named.what, &named.maker}) *text = line.get_text(kLongestName);
    std::optional<CacheRow> row;
    try {
      row = wanted == Wanted::one ? server.one(named) : server.next();
    } catch (const SQLite::Exception&) {  // what cannot be read is not there
    }
    say(line, row);
  }
}

CacheApart::CacheApart(const ReadersApart& readers, const std::filesystem::path& file, bool with_wal)
    : reader_(readers.with_cache(file, with_wal)) {
  const auto size = [&](const char* tail) {
    std::error_code none;
    const auto bytes = std::filesystem::file_size(file.string() + tail, none);
    return none ? 0 : bytes;
  };
  left_ = 2 * (size("") + (with_wal ? size("-wal") : 0));
}

std::optional<CacheRow> CacheApart::answer() {
  Line& line = reader_->line;
  if (line.get_value<std::uint8_t>() == 0) return std::nullopt;
  CacheRow row;
  for (std::string* text : {&row.photo, &row.what, &row.maker, &row.sum}) *text = line.get_text(kLongestName);
  const std::string bytes = line.get_text(kLongestRow);
  const auto* from = reinterpret_cast<const std::byte*>(bytes.data());
  row.bytes.assign(from, from + bytes.size());
  return row;
}

std::optional<CacheRow> CacheApart::get(const std::string& photo, const std::string& what,
                                        const std::string& maker) {
  Line& line = reader_->line;
  line.allow_seconds(kSeconds);
  line.put_value(Wanted::one);
  for (const std::string* text : {&photo, &what, &maker}) line.put_text(text->substr(0, kLongestName));
  std::optional<CacheRow> row = answer();
  if (row && std::tie(row->photo, row->what, row->maker) != std::tie(photo, what, maker))
    throw LineBroken("another row than was asked for");
  return row;
}

std::optional<CacheRow> CacheApart::next() {
  reader_->line.allow_seconds(kSeconds);
  reader_->line.put_value(Wanted::next);
  std::optional<CacheRow> row = answer();
  constexpr std::uint64_t kLeast = 100;  // of a row: two hashes in hex, and more
  const std::uint64_t bytes = row ? kLeast + row->bytes.size() : 0;
  if (bytes > left_) throw LineBroken("more than the file could hold");
  left_ -= bytes;
  return row;
}

}  // namespace evet
