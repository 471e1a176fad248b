#include "matcher/catalogue/repair.h"

#include <fcntl.h>
#include <unistd.h>

#include <system_error>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/uuid.h"
#include "matcher/catalogue/catalogue_parts.h"
#include "matcher/catalogue/database.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/own_databases.h"
#include "matcher/catalogue/read_apart.h"
#include "matcher/catalogue/salvage.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

void write_anew(const fs::path& part, const Salvaged& salvaged, RepairReport& report) {
  Store::create(part);
  Store store(part, true, 0);
  store.transaction([&] {
    for (const StoredEntry& stored : salvaged.entries) try {
        store.insert(stored.entry);
        ++report.entries;
      } catch (const Error& error) {
        if (error.kind() != ErrorKind::bad_input) throw;
        report.left_out.push_back("entry " + stored.entry.id.value + " at " +
                                  std::to_string(stored.position) + ": " + error.what());
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

// Where the program has a process for it, there: whatever is wrong with the bytes may have been made so.
Salvaged salvage_apart(const fs::path& copy, const fs::path& file, Env& env) {
  if (journal_names_a_file(copy)) env.remove(copy.string() + "-journal");
  const ReadersApart* readers = ReadersApart::in_use();
  return readers != nullptr ? readers->salvaged(copy, file) : salvage(copy);
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
    const Salvaged salvaged = salvage_apart(copy.file(), file, env);
    report.unread = salvaged.unread;
    if (salvaged.entries.empty())
      throw Error(ErrorKind::storage, file.string(), messages::kNoEntryOfCanBe, messages::kPutBackFromBackup);
    write_anew(part, salvaged, report);
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
  remember_as_own(file, env);
  report.parts = take_away_parts(folder / "photos", env);
  return report;
}

}  // namespace evet
