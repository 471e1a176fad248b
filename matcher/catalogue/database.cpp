#include "matcher/catalogue/database.h"

#include <SQLiteCpp/Statement.h>
#include <sqlite3.h>

#include <algorithm>
#include <cstddef>
#include <memory>
#include <vector>

#include "matcher/base/messages.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/sql.h"

namespace evet {

// Statements in use are gone by now, with those who had them.
Connection::~Connection() {
  while (sqlite3_stmt* left = sqlite3_next_stmt(getHandle(), nullptr)) sqlite3_finalize(left);
}

namespace {

// What the program's own schema and questions need, and not much more.
constexpr int kLimits[][2] = {{SQLITE_LIMIT_LENGTH, sql::kLongestValue},
                              {SQLITE_LIMIT_SQL_LENGTH, 100'000},
                              {SQLITE_LIMIT_COLUMN, 100},
                              {SQLITE_LIMIT_EXPR_DEPTH, 100},
                              {SQLITE_LIMIT_COMPOUND_SELECT, 3},
                              {SQLITE_LIMIT_VDBE_OP, 25'000},
                              {SQLITE_LIMIT_FUNCTION_ARG, 8},
                              {SQLITE_LIMIT_ATTACHED, 0},
                              {SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 50},
                              {SQLITE_LIMIT_VARIABLE_NUMBER, 100},
                              {SQLITE_LIMIT_TRIGGER_DEPTH, 10},
                              {SQLITE_LIMIT_WORKER_THREADS, 0}};

}  // namespace

void arm(SQLite::Database& database, bool write) {
  sqlite3* handle = database.getHandle();
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_VIEW, 0, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_TRIGGER, write ? 1 : 0, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0, nullptr);
  for (const auto& [what, most] : kLimits) sqlite3_limit(handle, what, most);
  database.exec(sql::kArmed);
}

std::map<std::string, std::string> schema_of(SQLite::Database& database) {
  std::map<std::string, std::string> schema;
  SQLite::Statement row(database, sql::kSchemaOf);
  while (row.executeStep()) schema[row.getColumn(0).getString()] = row.getColumn(1).getString();
  return schema;
}

std::string harmful_schema(SQLite::Database& database, const std::map<std::string, std::string>& made) {
  for (const auto& [what, text] : schema_of(database)) {
    const auto at = made.find(what);
    const bool as_made = at != made.end() && at->second == text;
    // A plain table more, or a trigger less, is for the audit to tell: neither does anything.
    const bool plain = what.starts_with("table ") && at == made.end() && text.starts_with("CREATE TABLE");
    if (!as_made && !plain) return what;
  }
  return {};
}

Bytes database_start(const std::filesystem::path& file, size_t at_most) {
  const auto failed = [&] {
    return Error(ErrorKind::storage, file.string(), messages::kFileCannotBeOpened,
                 messages::kCheckYouMayReadAnd);
  };
  sqlite3_vfs* files = sqlite3_vfs_find(nullptr);
  const std::unique_ptr<const char, decltype(&sqlite3_free_filename)> name(
      sqlite3_create_filename(file.c_str(), "", "", 0, nullptr), &sqlite3_free_filename);
  std::vector<std::max_align_t> room(static_cast<size_t>(files->szOsFile) / sizeof(std::max_align_t) + 1);
  auto* open = reinterpret_cast<sqlite3_file*>(room.data());
  Bytes bytes(at_most);
  int flags = SQLITE_OPEN_READONLY | SQLITE_OPEN_MAIN_DB;
  if (!name || files->xOpen(files, name.get(), open, flags, &flags) != SQLITE_OK) throw failed();
  sqlite3_int64 size = 0;
  bool read = open->pMethods->xFileSize(open, &size) == SQLITE_OK;
  bytes.resize(std::min(at_most, static_cast<size_t>(std::max<sqlite3_int64>(size, 0))));
  read = read && (bytes.empty() ||
                  open->pMethods->xRead(open, bytes.data(), static_cast<int>(bytes.size()), 0) == SQLITE_OK);
  open->pMethods->xClose(open);
  if (!read) throw failed();
  return bytes;
}

Error database_error(const std::filesystem::path& file, const SQLite::Exception& error) {
  const std::string item = file.string();
  switch (error.getErrorCode()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {ErrorKind::storage, item, messages::kAnotherProgramIsWritingCatalogue,
              messages::kWaitUntilIsDoneAnd};
    case SQLITE_FULL:
      return {ErrorKind::storage, item, messages::kDiskIsFull, messages::kFreeSomeSpace};
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return {ErrorKind::storage, item, messages::kMayNotBeWritten, messages::kMakeFolderWritableOrCopy};
    case SQLITE_CANTOPEN:
      return {ErrorKind::storage, item, messages::kFileCannotBeOpened, messages::kCheckYouMayReadAnd};
    case SQLITE_TOOBIG:
      return {ErrorKind::too_large, item, messages::kValueInIsLargerThan, messages::kUseCopyNobodyHasAltered};
    case SQLITE_CONSTRAINT:
      return {ErrorKind::bad_input, item, Message(messages::kDoesNotFitWhatIs, {{"error", error.what()}})};
    case SQLITE_CORRUPT:
      return {ErrorKind::storage, item, Message(messages::kDatabaseIsDamaged, {{"error", error.what()}}),
              messages::kPutBackFromBackupOr};
    case SQLITE_NOTADB:
      return {ErrorKind::bad_input, item, messages::kIsNotCatalogue, messages::kNameFolderMadeWithEvet};
    default:
      return {ErrorKind::storage, item, Message(messages::kDatabaseFailed, {{"error", error.what()}})};
  }
}

}  // namespace evet
