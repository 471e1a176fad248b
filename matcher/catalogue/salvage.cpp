#include "matcher/catalogue/salvage.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <map>

#include "matcher/catalogue/database.h"
#include "matcher/catalogue/guarded_files.h"
#include "matcher/catalogue/sql.h"
#include "matcher/catalogue/store_parts.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

class Salvage {
 public:
  explicit Salvage(const fs::path& file)
      : guard_(false), database_(file.string(), SQLite::OPEN_READONLY, 0, guard_.name()) {
    arm(database_, false);
    const std::int64_t last_forward = scan(sql::kSalvageForward);
    const std::int64_t first_backward = scan(sql::kSalvageBackward);
    // Between what can be reached from either end, place by place.
    constexpr std::int64_t kMost = 10'000'000;
    if (first_backward - last_forward > kMost) return;
    for (std::int64_t at = last_forward + 1; at < first_backward; ++at) try {
        SQLite::Statement row(database_, std::string(sql::kEntryColumns) + sql::kEntryByPosition);
        row.bind(1, at);
        take(row);
      } catch (const SQLite::Exception&) {
        ++unread_;
      }
  }
  Salvaged result() {
    Salvaged all{{}, unread_};
    all.entries.reserve(found_.size());
    for (auto& [position, stored] : found_) all.entries.push_back(std::move(stored));
    return all;
  }

 private:
  // Until the end, or until it breaks; the last position reached.
  std::int64_t scan(const char* order) {
    std::int64_t last = 0;
    try {
      SQLite::Statement row(database_, std::string(sql::kEntryColumns) + order);
      while (take(row)) last = row.getColumn(0).getInt64();
    } catch (const SQLite::Exception&) {
    }
    return last;
  }
  bool take(SQLite::Statement& row) {
    if (!row.executeStep()) return false;
    StoredEntry stored = entry_of(row);
    found_.emplace(stored.position, std::move(stored));
    return true;
  }

  GuardedFiles guard_;
  Connection database_;
  std::map<std::int64_t, StoredEntry> found_;
  size_t unread_ = 0;
};

void play_back(const fs::path& copy) {
  try {
    const GuardedFiles guard(true);
    Connection database(copy.string(), SQLite::OPEN_READWRITE, 0, guard.name());
    arm(database, true);
    database.exec(sql::kAlone);  // a log is read without shared memory, which a process apart has none of
    database.exec(sql::kRollbackJournal);  // what another program may have left in a log comes in
    database.execAndGet(sql::kLastPosition);
  } catch (const SQLite::Exception&) {  // then it is read as far as it goes
  }
}

}  // namespace

Salvaged salvage(const fs::path& copy) {
  play_back(copy);
  return Salvage(copy).result();
}

}  // namespace evet
