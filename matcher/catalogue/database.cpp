#include "matcher/catalogue/database.h"

#include <sqlite3.h>

namespace evet {

Error in_our_words(const std::filesystem::path& file, const SQLite::Exception& error) {
  const std::string item = file.string();
  switch (error.getErrorCode()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {ErrorKind::storage, item, "another program is writing to the catalogue",
              "wait until it is done and run the same command again"};
    case SQLITE_FULL:
      return {ErrorKind::storage, item, "the disk is full", "free some space and run the same command again"};
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return {ErrorKind::storage, item, "it may not be written to",
              "make the folder writable, or copy it and use the copy"};
    case SQLITE_CANTOPEN:
      return {ErrorKind::storage, item, "the file cannot be opened",
              "check that you may read and write the folder"};
    case SQLITE_CORRUPT:
      return {ErrorKind::storage, item, std::string("the database is damaged (") + error.what() + ")",
              "put it back from a backup"};
    case SQLITE_NOTADB:
      return {ErrorKind::bad_input, item, "it is not a catalogue", "name a folder made with 'evet new'"};
    default:
      return {ErrorKind::storage, item, std::string("the database failed (") + error.what() + ")"};
  }
}

}  // namespace evet
