// What the audit asks of the database itself.
#include <SQLiteCpp/SQLiteCpp.h>

#include <map>

#include "matcher/catalogue/database.h"
#include "matcher/catalogue/sql.h"
#include "matcher/catalogue/store.h"
#include "matcher/catalogue/store_parts.h"

namespace evet {
namespace {

bool same_rows(SQLite::Statement& a, SQLite::Statement& b) {
  if (a.getColumnCount() != b.getColumnCount()) return false;
  for (;;) {
    const bool more = a.executeStep();
    if (more != b.executeStep()) return false;
    if (!more) return true;
    for (int i = 0; i < a.getColumnCount(); ++i) {
      const SQLite::Column x = a.getColumn(i), y = b.getColumn(i);
      if (x.getType() != y.getType() || x.getString() != y.getString()) return false;
    }
  }
}

}  // namespace

const std::map<std::string, std::string>& Store::schema_as_made() {
  static const std::map<std::string, std::string> made = [] {
    Connection fresh(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    fresh.exec(sql::kSchema);
    return schema_of(fresh);
  }();
  return made;
}

std::vector<std::string> Store::schema_changes() const {
  return guarded(parts_->file, [&] {
    const auto& made = schema_as_made();
    const auto found = schema_of(parts_->database);
    std::vector<std::string> findings;
    for (const auto& [what, text] : made)
      if (const auto at = found.find(what); at == found.end())
        findings.push_back("the " + what + " is missing");
      else if (at->second != text)
        findings.push_back("the " + what + " was altered");
    for (const auto& [what, text] : found)
      if (!made.contains(what)) findings.push_back("the " + what + " does not belong there");
    return findings;
  });
}

std::vector<std::string> Store::stale_projections() const {
  return guarded(parts_->file, [&] {
    StoreParts anew;
    anew.database.exec(sql::kSchema);
    anew.database.exec(sql::kWithoutKeys);   // there are no entries beside them
    parts_->database.exec(sql::kBeginRead);  // the entries and the tables of one moment
    std::vector<std::string> findings;
    try {
      project_all(anew);
      for (const auto& [table, query] : sql::kProjections) {
        SQLite::Statement kept(parts_->database, query), made(anew.database, query);
        if (!same_rows(kept, made))
          findings.push_back(std::string("table ") + table + " is not what the ledger gives");
      }
    } catch (const Error& error) {
      findings.push_back(std::string("they cannot be made anew: ") + error.what());
    } catch (const SQLite::Exception& error) {
      findings.push_back(std::string("they cannot be made anew: ") + error.what());
    }
    parts_->database.exec(sql::kRollback);
    return findings;
  });
}

std::vector<std::string> Store::integrity() const {
  return guarded(parts_->file, [&] {
    std::vector<std::string> findings;
    SQLite::Statement check(parts_->database, sql::kQuickCheck);
    while (check.executeStep())
      if (const std::string line = check.getColumn(0).getString(); line != "ok") findings.push_back(line);
    SQLite::Statement keys(parts_->database, sql::kForeignKeyCheck);
    while (keys.executeStep())
      findings.push_back("a row of table " + keys.getColumn(0).getString() + " refers to nothing");
    return findings;
  });
}

}  // namespace evet
