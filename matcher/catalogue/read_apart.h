// Databases of a folder from elsewhere, read in a process that holds nothing else and can do no harm
// (matcher/photo/confined.h): SQLite runs there, over files handed to it open for reading, with limits on memory,
// time and system calls. What comes back is rows and words, bounded (apart_wire.h); the caller goes on with
// those, and never opens the database.
//
// While it is read it is locked as SQLite's readers lock it, so that a writer waits (sqlite.org/lockingv3.html).
// The lock belongs to the open file and not to the process (fcntl(2), F_OFD_SETLK).
#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/ids.h"
#include "matcher/catalogue/salvage.h"
#include "matcher/catalogue/stored_entry.h"
#include "matcher/photo/confined.h"

namespace evet {

struct LedgerApart {
  std::vector<StoredEntry> entries;  // by position
  // For an audit, as Store's functions of these names give them; an error on the way is one of them.
  std::vector<std::string> database, ledger, projections;
  std::string device, device_file;  // whose chain the folder went on with, and to which file
  std::string state;                // of the file that was read, as Store::state_of gives it
};

class ReadersApart {
 public:
  static ConfinedWork confined();
  // `kind`: confined()'s place in the maker's list. A database may take so many seconds, and more by its size.
  ReadersApart(std::shared_ptr<ConfinedMaker> maker, std::uint8_t kind, int least_seconds = 120);
  ~ReadersApart();
  ReadersApart(const ReadersApart&) = delete;
  ReadersApart& operator=(const ReadersApart&) = delete;

  // Errors: those of opening and reading a Store; AlteredCatalogue when the reader died of it or took too long.
  // With `audit` what cannot be read on the way is told in the lists.
  LedgerApart ledger(const std::filesystem::path& database, bool audit, int busy_timeout_ms) const;
  // As Cache::damaged().
  std::vector<PhotoId> damaged_in_cache(const std::filesystem::path& database, bool beside_a_writer) const;
  // A process that holds this cache open and answers (cache_apart.h). Errors: LineBroken; storage.
  std::unique_ptr<Confined> with_cache(const std::filesystem::path& database, bool beside_a_writer) const;
  // As salvage(). `copy` is of `database`, which errors name.
  Salvaged salvaged(const std::filesystem::path& copy, const std::filesystem::path& database) const;

  // Those that Catalogue, Cache and repair() use; nullptr: it reads in this process.
  static ReadersApart* in_use();
  static void use(ReadersApart* readers);

 private:
  std::shared_ptr<ConfinedMaker> maker_;
  std::uint8_t kind_;
  int least_seconds_;
};

}  // namespace evet
