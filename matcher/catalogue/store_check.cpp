// What the audit asks of the database itself.
#include <SQLiteCpp/SQLiteCpp.h>

#include <map>

#include "matcher/catalogue/database.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/sql.h"
#include "matcher/catalogue/store.h"
#include "matcher/catalogue/store_parts.h"

namespace evet {
namespace {

using What = std::vector<Message::Argument>;

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

std::vector<Message> Store::schema_changes() const {
  return guarded(parts_->file, [&] {
    const auto& made = schema_as_made();
    const auto found = schema_of(parts_->database);
    std::vector<Message> findings;
    for (const auto& [what, text] : made)
      if (const auto at = found.find(what); at == found.end())
        findings.emplace_back(messages::kSchemaMissing, What{{"what", what}});
      else if (at->second != text)
        findings.emplace_back(messages::kSchemaAltered, What{{"what", what}});
    for (const auto& [what, text] : found)
      if (!made.contains(what)) findings.emplace_back(messages::kSchemaForeign, What{{"what", what}});
    return findings;
  });
}

std::vector<Message> Store::stale_projections() const {
  return guarded(parts_->file, [&] {
    StoreParts anew;
    anew.database.exec(sql::kSchema);
    anew.database.exec(sql::kWithoutKeys);   // there are no entries beside them
    parts_->database.exec(sql::kBeginRead);  // the entries and the tables of one moment
    std::vector<Message> findings;
    try {
      project_all(anew);
      for (const auto& [table, query] : sql::kProjections) {
        SQLite::Statement kept(parts_->database, query), made(anew.database, query);
        if (!same_rows(kept, made)) findings.emplace_back(messages::kProjectionStale, What{{"table", table}});
      }
    } catch (const Error& error) {
      findings.emplace_back(messages::kProjectionsFail, What{{"error", error.what()}});
    } catch (const SQLite::Exception& error) {
      findings.emplace_back(messages::kProjectionsFail, What{{"error", error.what()}});
    }
    parts_->database.exec(sql::kRollback);
    return findings;
  });
}

std::vector<Message> Store::integrity() const {
  return guarded(parts_->file, [&] {
    std::vector<Message> findings;
    SQLite::Statement check(parts_->database, sql::kQuickCheck);
    while (check.executeStep())
      if (const std::string line = check.getColumn(0).getString(); line != "ok")
        findings.push_back(bare(line));
    SQLite::Statement keys(parts_->database, sql::kForeignKeyCheck);
    while (keys.executeStep())
      findings.emplace_back(messages::kRefersToNothing, What{{"table", keys.getColumn(0).getString()}});
    return findings;
  });
}

}  // namespace evet
