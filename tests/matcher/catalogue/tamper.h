// Writing past the program: raw SQL on a catalogue's database, triggers and all, as someone with a database
// tool could.
#pragma once
#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <string>

#include "matcher/base/uuid.h"
#include "matcher/catalogue/catalogue.h"

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

// An entry put in past the program, its hash and its place in the chain as they should be: by a program that
// checks nothing. Continues the chain of the newest entry.
inline Entry put_in(const std::filesystem::path& catalogue, const std::string& kind, const std::string& body,
                    const std::string& id = {}) {
  Entry entry;
  {
    Catalogue before = Catalogue::open(catalogue, system_env(), {.access = Access::read});
    entry = before.ledger().back().entry;
  }
  entry.prev = entry.hash, entry.seq += 1, entry.kind = kind, entry.body = body;
  entry.id = EntryId(id.empty() ? uuid7_after(system_env(), entry.id.value) : id);
  entry.hash = hash_of(entry);
  SQLite::Database database((catalogue / "catalogue.sqlite").string(), SQLite::OPEN_READWRITE);
  SQLite::Statement row(
      database,
      "INSERT INTO entry (id, device, seq, time, actor_kind, actor, kind, body, prev, hash) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  int at = 0;
  for (const std::string& text : {entry.id.value, entry.device.value}) row.bind(++at, text);
  row.bind(++at, entry.seq);
  for (const std::string& text : {entry.time, std::string(name(entry.actor.kind)), entry.actor.name,
                                  entry.kind, entry.body, entry.prev, entry.hash})
    row.bind(++at, text);
  row.exec();
  return entry;
}

}  // namespace evet::try_out
