// Writing past the program: raw SQL on a catalogue's database, triggers and all, as someone with a database
// tool could.
#pragma once
#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <string>

namespace evet::try_out {

inline void tamper(const std::filesystem::path& catalogue, const std::string& sql) {
  SQLite::Database database((catalogue / "catalogue.sqlite").string(), SQLite::OPEN_READWRITE);
  database.exec(sql);
}

// The same, with the triggers that guard the ledger set aside and put back afterwards.
inline void tamper_unguarded(const std::filesystem::path& catalogue, const std::string& sql) {
  SQLite::Database database((catalogue / "catalogue.sqlite").string(), SQLite::OPEN_READWRITE);
  std::string drop, put_back;
  {
    SQLite::Statement row(database, "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
    while (row.executeStep()) {
      drop += "DROP TRIGGER " + row.getColumn(0).getString() + ";";
      put_back += row.getColumn(1).getString() + ";";
    }
  }
  database.exec(drop);
  database.exec(sql);
  database.exec(put_back);
}

}  // namespace evet::try_out
