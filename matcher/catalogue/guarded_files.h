// What SQLite may touch for one database: the file itself and its journal beside it, nothing else, whatever
// the bytes of a folder from elsewhere ask for.
//
// A journal may name a second, "super" journal, which SQLite looks for and removes when it plays the first
// back (SQLite file format, section 3; "Defense Against The Dark Arts", sqlite.org/security.html). The
// program never writes one, so a journal that names a file was made to have it removed. Here a VFS stands
// over the machine's own that knows only the database's own names; read-only, it creates and removes nothing
// at all.
#pragma once
#include <filesystem>
#include <memory>
#include <string>

#include "matcher/base/env.h"

namespace evet {

// A database opened with the URI's "readonly_shm=1" may be read beside its writer, from the -wal and -shm that
// lie there already (sqlite.org/wal.html, "Read-Only Databases").
class GuardedFiles {
 public:
  explicit GuardedFiles(bool write);
  ~GuardedFiles();
  GuardedFiles(GuardedFiles&&) noexcept;
  // The name under which SQLite knows it, as long as this lives.
  const std::string& name() const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

// Whether the database's journal names another file; then the database must not be opened for writing.
bool journal_names_a_file(const std::filesystem::path& database);

// A copy of a database and its journal in a private place, for reading what a killed program left half
// written: playing the journal back changes files, and who only reads changes none.
class PlayedBack {
 public:
  PlayedBack(Env& env, const std::filesystem::path& database);
  ~PlayedBack();
  PlayedBack(const PlayedBack&) = delete;
  PlayedBack& operator=(const PlayedBack&) = delete;
  std::filesystem::path file() const { return folder_ / "copy.sqlite"; }

 private:
  void remove() noexcept;
  std::filesystem::path folder_;
};

}  // namespace evet
