// The entries of a database that may be broken anywhere: all that can be reached from either end, and what lies
// between, place by place. For repair.h, on a copy of the file.
#pragma once
#include <filesystem>
#include <vector>

#include "matcher/catalogue/stored_entry.h"

namespace evet {

struct Salvaged {
  std::vector<StoredEntry> entries;  // by position
  std::size_t unread = 0;            // places that cannot be read
};

// First what a stopped program left half written in `copy` is taken back; its journal must be the program's own.
// Errors: those of SQLite where the file cannot be opened at all.
Salvaged salvage(const std::filesystem::path& copy);

}  // namespace evet
