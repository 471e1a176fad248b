#include "matcher/catalogue/repair.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fcntl.h>
#include <unistd.h>

#include <map>
#include <system_error>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/uuid.h"
#include "matcher/catalogue/catalogue_parts.h"
#include "matcher/catalogue/database.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/sql.h"
#include "matcher/catalogue/store_parts.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

// The entries of a database that may be broken anywhere, by position.
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
  const std::map<std::int64_t, StoredEntry>& found() const { return found_; }
  size_t unread() const { return unread_; }

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

void write_anew(const fs::path& part, const Salvage& salvage, RepairReport& report) {
  Store::create(part);
  Store store(part, true, 0);
  store.transaction([&] {
    for (const auto& [position, stored] : salvage.found()) try {
        store.insert(stored.entry);
        ++report.entries;
      } catch (const Error& error) {
        if (error.kind() != ErrorKind::bad_input) throw;
        report.left_out.push_back("entry " + stored.entry.id.value + " at " + std::to_string(position) +
                                  ": " + error.what());
      }
    store.rebuild_projections();
  });
}

size_t take_away_parts(const fs::path& photos, Env& env) {
  size_t taken = 0;
  if (env.facts(photos).kind != FileKind::folder) return 0;
  for (const std::string& name : env.list_folder(photos)) {
    if (env.facts(photos / name).kind != FileKind::folder) continue;
    for (const std::string& file : env.list_folder(photos / name))
      if (file.find(".part-") == 64) env.remove(photos / name / file), ++taken;
  }
  return taken;
}

// Whether a program holds one of SQLite's locks on the file (its pending, reserved and shared bytes).
bool is_in_use(const fs::path& file) {
  const int fd = ::open(file.c_str(), O_RDWR | O_NOFOLLOW | O_CLOEXEC);
  if (fd < 0) return false;  // a file that may only be read: told when it is replaced
  struct flock lock {};
  lock.l_type = F_WRLCK, lock.l_whence = SEEK_SET, lock.l_start = 0x40000000, lock.l_len = 512;
  const bool held = ::fcntl(fd, F_GETLK, &lock) == 0 && lock.l_type != F_UNLCK;
  ::close(fd);
  return held;
}

// In the copy: what a stopped program left half written is taken back, where its journal
// is the program's own.
void play_back(const fs::path& copy, Env& env) {
  if (journal_names_a_file(copy)) env.remove(copy.string() + "-journal");
  try {
    const GuardedFiles guard(true);
    Connection database(copy.string(), SQLite::OPEN_READWRITE, 0, guard.name());
    database.exec(sql::kRollbackJournal);  // what another program may have left in a log comes in
    database.execAndGet(sql::kLastPosition);
  } catch (const SQLite::Exception&) {  // then it is read as far as it goes
  }
}

void keep_as(const fs::path& file, const fs::path& other, Env& env) {
  std::error_code error;
  fs::copy_file(file, other, error);
  if (error)
    throw Error(ErrorKind::storage, other.string(),
                Message(messages::kCannotBeWrittenCatalogue, {{"error", error.message()}}),
                messages::kFreeSomeSpace);
  env.sync_file(other);
}

}  // namespace

RepairReport repair(const fs::path& folder, Env& env) {
  const fs::path file = folder / kDatabaseName, journal = file.string() + "-journal";
  if (env.facts(file).kind != FileKind::file)
    throw Error(ErrorKind::not_found, file.string(), messages::kThereIsNoDatabaseRepair,
                messages::kNameFolderOfCatalogue);
  if (is_in_use(file))
    throw Error(ErrorKind::conflict, file.string(), messages::kAnotherProgramHasOpen, messages::kCloseFirst);
  RepairReport report;
  const std::string mark = uuid7(system_env());
  const fs::path part = folder / (std::string(kDatabaseName) + ".part-" + mark);
  report.old_database = file.string() + ".damaged-" + mark;
  guarded(file, [&] {
    const PlayedBack copy(env, file);
    play_back(copy.file(), env);
    const Salvage salvage(copy.file());
    report.unread = salvage.unread();
    if (salvage.found().empty())
      throw Error(ErrorKind::storage, file.string(), messages::kNoEntryOfCanBe, messages::kPutBackFromBackup);
    write_anew(part, salvage, report);
  });
  // The old one is safe under its other name before anything of it goes, its journal first: that would be
  // played back into the new one.
  keep_as(file, report.old_database, env);
  if (env.facts(journal).kind == FileKind::file)
    keep_as(journal, report.old_database.string() + "-journal", env);
  env.remove(journal);
  env.sync_folder(folder);
  env.rename(part, file);
  env.sync_folder(folder);
  report.parts = take_away_parts(folder / "photos", env);
  return report;
}

}  // namespace evet
