// A store in memory put in the place of a file from elsewhere, by SQLite's own copying of pages
// (sqlite.org/backup.html): under its locks and with its journal, so that another program that has the file open
// waits, and a power cut leaves one or the other.
#include <SQLiteCpp/Backup.h>
#include <sqlite3.h>

#include "matcher/catalogue/database.h"
#include "matcher/catalogue/store.h"
#include "matcher/catalogue/store_parts.h"

namespace evet {
namespace {

void step(SQLite::Backup& copying, int pages) {
  const int result = copying.executeStep(pages);
  if (result != SQLITE_OK && result != SQLITE_DONE) throw SQLite::Exception(sqlite3_errstr(result), result);
}

}  // namespace

// Offsets 24 and 28: the change counter and the size in pages (SQLite file format, section 1.3).
std::string Store::state_of(const std::filesystem::path& file) {
  constexpr std::size_t kFrom = 24, kTo = 32;
  static constexpr char kHex[] = "0123456789abcdef";
  const Bytes head = database_start(file, kTo);
  std::string state;
  for (std::size_t i = kFrom; i < head.size(); ++i) {
    const auto byte = std::to_integer<unsigned>(head[i]);
    state += kHex[byte >> 4], state += kHex[byte & 15];
  }
  return state;
}

bool Store::put_into(const std::filesystem::path& file, const std::string& state, int busy_timeout_ms) const {
  return guarded(file, [&] {
    const GuardedFiles guard(true);
    Connection place(file.string(), SQLite::OPEN_READWRITE, busy_timeout_ms, guard.name());
    arm(place, true);
    SQLite::Backup copying(place, parts_->database);
    step(copying, 0);  // takes the lock, and takes back what a stopped writer left half written
    if (state_of(file) != state) return false;
    step(copying, -1);
    return true;
  });
}

}  // namespace evet
