// What the process apart does that read_apart.h asks: SQLite's work on files that were handed to it.
#pragma once
#include <cstdint>

#include "matcher/photo/wire.h"

namespace evet {

enum class Asked : std::uint8_t { entries, audit, salvage, cache, cache_rows };
// What is handed over with a database.
enum class Beside : std::uint8_t { nothing, journal, wal };
inline const char* tail_of(Beside beside) {
  return beside == Beside::wal ? "-wal" : "-journal";
}

// A request comes first: what is asked, the file's name in errors, what comes beside it, then the open files.
void serve_apart(Line& line);

}  // namespace evet
