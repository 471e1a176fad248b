// SQLite's errors in our words. Everything that talks to SQLite goes through `database_error`.
#pragma once
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>

#include <filesystem>
#include <map>
#include <string>
#include <utility>

#include "matcher/base/env.h"
#include "matcher/base/error.h"

namespace evet {

// A connection that closes whatever happened before: where memory ran out inside SQLiteCpp a statement may be
// left open, for which its own closing would end the process.
class Connection : public SQLite::Database {
 public:
  using SQLite::Database::Database;
  ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
};

// Every connection, before its first question: SQLite's own advice for files that may have been made to harm
// (sqlite.org/security.html). No views, no schema that acts by itself, no extensions, no mapped memory, nothing
// beyond bounds (sqlite.org/limits.html); read-only, no triggers either.
void arm(SQLite::Database& database, bool write);

// What a schema holds beside the tables, indices and triggers of `made` (each "type name" and its SQL):
// anything that would act by itself, and tables of `made` that are not as made. Empty when there is nothing.
std::string harmful_schema(SQLite::Database& database, const std::map<std::string, std::string>& made);
std::map<std::string, std::string> schema_of(SQLite::Database& database);

// A database's first bytes, read by SQLite's own file work and not past it: closing a file lets go of every lock
// that this process has on it, those of a writer in another thread too (fcntl(2); sqlite.org/howtocorrupt.html,
// section 2.2). Errors: storage.
Bytes database_start(const std::filesystem::path& file, size_t at_most);

Error database_error(const std::filesystem::path& file, const SQLite::Exception& error);

template <class Work>
decltype(auto) guarded(const std::filesystem::path& file, Work&& work) {
  try {
    return std::forward<Work>(work)();
  } catch (const SQLite::Exception& error) {
    throw database_error(file, error);
  }
}

}  // namespace evet
