#include "matcher/catalogue/store.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <nlohmann/json.hpp>

#include "matcher/catalogue/database.h"
#include "matcher/catalogue/sql.h"

namespace evet {
namespace {

StoredEntry entry_of(SQLite::Statement& row) {
  StoredEntry stored;
  stored.position = row.getColumn(0).getInt64();
  Entry& entry = stored.entry;
  entry.id = EntryId(row.getColumn(1).getString());
  entry.device = DeviceId(row.getColumn(2).getString());
  entry.seq = row.getColumn(3).getInt64();
  entry.time = row.getColumn(4).getString();
  entry.actor = {row.getColumn(5).getString() == "program" ? ActorKind::program : ActorKind::person,
                 row.getColumn(6).getString()};
  entry.kind = row.getColumn(7).getString();
  entry.body = row.getColumn(8).getString();
  entry.prev = row.getColumn(9).getString();
  entry.hash = row.getColumn(10).getString();
  return stored;
}

Stamp stamp_of(SQLite::Statement& row) {
  return {EntryId(row.getColumn(0).getString()),
          DeviceId(row.getColumn(1).getString()),
          row.getColumn(2).getInt64(),
          row.getColumn(3).getString(),
          {row.getColumn(4).getString() == "program" ? ActorKind::program : ActorKind::person,
           row.getColumn(5).getString()}};
}

void bind(SQLite::Statement& row, int at, const std::optional<double>& value) {
  if (value)
    row.bind(at, *value);
  else
    row.bind(at);
}
std::optional<double> number(SQLite::Statement& row, int at) {
  const SQLite::Column column = row.getColumn(at);
  return column.isNull() ? std::nullopt : std::optional<double>(column.getDouble());
}

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

struct Store::Parts {
  std::filesystem::path file;
  SQLite::Database database;
  // Writing statements are prepared once: an intake inserts thousands of rows.
  std::optional<SQLite::Statement> insert_entry, insert_capture, insert_photo, insert_verdict, insert_about;

  Parts(const std::filesystem::path& path, int flags, int busy_timeout_ms)
      : file(path), database(path.string(), flags, busy_timeout_ms) {}

  SQLite::Statement& prepared(std::optional<SQLite::Statement>& slot, const char* sql) {
    if (!slot)
      slot.emplace(database, sql);
    else
      slot->reset();
    return *slot;
  }

  // A statement that failed half-way holds its pages, and with them a failed disk's error, until it is reset.
  void let_go() {
    for (auto* slot : {&insert_entry, &insert_capture, &insert_photo, &insert_verdict, &insert_about})
      if (*slot) (*slot)->tryReset();
  }

  void about(const CaptureId& capture, std::int64_t position) {
    if (capture.empty()) return;
    auto& row = prepared(insert_about, sql::kInsertAbout);
    row.bind(1, capture.value);
    row.bind(2, position);
    row.exec();
  }

  void project(std::int64_t position, const Capture& capture) {
    auto& row = prepared(insert_capture, sql::kInsertCapture);
    const CaptureFacts& facts = capture.facts;
    int at = 0;
    row.bind(++at, position);
    for (const std::string* text :
         {&capture.id.value, &facts.site, &facts.pond, &facts.night, &facts.trap, &facts.name})
      row.bind(++at, *text);
    row.bind(++at, name(facts.sex));
    row.bind(++at, facts.stage);
    for (const auto* value : {&facts.svl_mm, &facts.total_mm, &facts.mass_g}) bind(row, ++at, *value);
    row.bind(++at, facts.observer);
    row.bind(++at, facts.licence);
    for (const auto* value : {&facts.latitude, &facts.longitude}) bind(row, ++at, *value);
    row.bind(++at, facts.individual);
    row.bind(++at, facts.notes);
    row.bind(++at, facts.lost ? 1 : 0);
    row.exec();
    about(capture.id, position);
  }
  void project(std::int64_t position, const PhotoTaken& photo) {
    auto& row = prepared(insert_photo, sql::kInsertPhoto);
    row.bind(1, position);
    row.bind(2, photo.photo.value);
    row.bind(3, photo.capture.value);
    row.bind(4, photo.name);
    row.bind(5, photo.examination.usable ? 1 : 0);
    row.exec();
    about(photo.capture, position);
  }
  void project(std::int64_t position, const Verdict& verdict) {
    auto& row = prepared(insert_verdict, sql::kInsertVerdict);
    std::string settles;
    for (const EntryId& id : verdict.settles) settles += (settles.empty() ? "" : " ") + id.value;
    row.bind(1, position);
    row.bind(2, verdict.capture.value);
    if (verdict.other.empty())
      row.bind(3);
    else
      row.bind(3, verdict.other.value);
    row.bind(4, name(verdict.answer));
    row.bind(5, verdict.reason);
    row.bind(6, verdict.blind ? 1 : 0);
    row.bind(7, verdict.planted ? 1 : 0);
    row.bind(8, settles);
    row.exec();
    about(verdict.capture, position);
    about(verdict.other, position);
  }
  void project(std::int64_t position, const Correction& correction) { about(correction.capture, position); }
  void project(std::int64_t position, const LabelGiven& label) { about(label.capture, position); }
  void project(std::int64_t position, const Reading& reading) { about(reading.capture, position); }
  template <class Other>
  void project(std::int64_t, const Other&) {}  // tables hold nothing of it
};

void Store::create(const std::filesystem::path& file) {
  guarded(file, [&] {
    SQLite::Database database(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    database.exec(sql::kConnect);
    database.exec(sql::kSchema);
  });
}

Store::Store(const std::filesystem::path& file, bool write, int busy_timeout_ms) {
  guarded(file, [&] {
    parts_ = std::make_unique<Parts>(file, write ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY,
                                     busy_timeout_ms);
    parts_->database.exec(sql::kConnect);
    if (!write) parts_->database.exec(sql::kReadOnly);
  });
}
Store::~Store() = default;
Store::Store(Store&&) noexcept = default;

void Store::transaction(const std::function<void()>& work) {
  guarded(parts_->file, [&] {
    parts_->database.exec(sql::kBegin);
    try {
      work();
      parts_->database.exec(sql::kCommit);
    } catch (...) {
      parts_->let_go();
      // SQLite may have rolled back by itself already (a full disk); then this one has nothing to do.
      if (sqlite3_get_autocommit(parts_->database.getHandle()) == 0) parts_->database.tryExec(sql::kRollback);
      throw;
    }
  });
}

std::int64_t Store::insert(const Entry& entry, const Body& body) {
  return guarded(parts_->file, [&] {
    auto& row = parts_->prepared(parts_->insert_entry, sql::kInsertEntry);
    row.bind(1, entry.id.value);
    row.bind(2, entry.device.value);
    row.bind(3, entry.seq);
    row.bind(4, entry.time);
    row.bind(5, name(entry.actor.kind));
    row.bind(6, entry.actor.name);
    row.bind(7, entry.kind);
    row.bind(8, entry.body);
    row.bind(9, entry.prev);
    row.bind(10, entry.hash);
    row.exec();
    const std::int64_t position = parts_->database.getLastInsertRowid();
    std::visit([&](const auto& one) { parts_->project(position, one); }, body);
    return position;
  });
}

void Store::set_here(const std::string& key, const std::string& value) {
  guarded(parts_->file, [&] {
    SQLite::Statement row(parts_->database, sql::kSetHere);
    row.bind(1, key);
    row.bind(2, value);
    row.exec();
  });
}

void Store::rebuild_projections() {
  guarded(parts_->file, [&] {
    for (const char* clear : sql::kClearProjections) parts_->database.exec(clear);
    each_entry(0, [&](const StoredEntry& stored) {
      std::visit([&](const auto& one) { parts_->project(stored.position, one); }, body_of(stored.entry));
    });
    set_here("projection", std::to_string(sql::kProjection));
  });
}

std::optional<std::string> Store::here(const std::string& key) const {
  return guarded(parts_->file, [&]() -> std::optional<std::string> {
    SQLite::Statement row(parts_->database, sql::kGetHere);
    row.bind(1, key);
    if (!row.executeStep()) return std::nullopt;
    return row.getColumn(0).getString();
  });
}

bool Store::projections_current() const {
  return here("projection") == std::to_string(sql::kProjection);
}

std::int64_t Store::last_position() const {
  return guarded(parts_->file, [&] { return parts_->database.execAndGet(sql::kLastPosition).getInt64(); });
}

std::string Store::last_id() const {
  return guarded(parts_->file, [&] { return parts_->database.execAndGet(sql::kLastId).getString(); });
}

std::optional<Merge::Head> Store::head(const DeviceId& device) const {
  return guarded(parts_->file, [&]() -> std::optional<Merge::Head> {
    SQLite::Statement row(parts_->database, sql::kHeadOfDevice);
    row.bind(1, device.value);
    if (!row.executeStep()) return std::nullopt;
    return Merge::Head{row.getColumn(0).getInt64(), row.getColumn(1).getString()};
  });
}

std::map<DeviceId, Merge::Head> Store::heads() const {
  return guarded(parts_->file, [&] {
    std::map<DeviceId, Merge::Head> heads;
    SQLite::Statement row(parts_->database, sql::kHeads);
    while (row.executeStep())
      heads[DeviceId(row.getColumn(0).getString())] = {row.getColumn(1).getInt64(),
                                                       row.getColumn(2).getString()};
    return heads;
  });
}

bool Store::any_row(const char* question, const std::string& value) const {
  return guarded(parts_->file, [&] {
    SQLite::Statement row(parts_->database, question);
    row.bind(1, value);
    return row.executeStep();
  });
}
bool Store::has_capture(const CaptureId& id) const {
  return any_row(sql::kHasCapture, id.value);
}
bool Store::has_photo(const PhotoId& id) const {
  return any_row(sql::kHasPhoto, id.value);
}
bool Store::has_entry(const EntryId& id) const {
  return any_row(sql::kHasEntry, id.value);
}

std::optional<StoredEntry> Store::entry(const EntryId& id) const {
  return guarded(parts_->file, [&]() -> std::optional<StoredEntry> {
    SQLite::Statement row(parts_->database, std::string(sql::kEntryColumns) + sql::kEntryById);
    row.bind(1, id.value);
    if (!row.executeStep()) return std::nullopt;
    return entry_of(row);
  });
}

std::optional<StoredEntry> Store::entry_at(std::int64_t position) const {
  return guarded(parts_->file, [&]() -> std::optional<StoredEntry> {
    SQLite::Statement row(parts_->database, std::string(sql::kEntryColumns) + sql::kEntryByPosition);
    row.bind(1, position);
    if (!row.executeStep()) return std::nullopt;
    return entry_of(row);
  });
}

void Store::each_entry(std::int64_t after_position,
                       const std::function<void(const StoredEntry&)>& visit) const {
  guarded(parts_->file, [&] {
    SQLite::Statement row(parts_->database, std::string(sql::kEntryColumns) + sql::kEntriesAfter);
    row.bind(1, after_position);
    while (row.executeStep()) visit(entry_of(row));
  });
}

std::vector<StoredEntry> Store::list(std::int64_t after_position, const std::string& kind,
                                     const std::string& actor, const CaptureId& capture, std::int64_t limit,
                                     bool newest_first) const {
  return guarded(parts_->file, [&] {
    SQLite::Statement row(parts_->database, std::string(sql::kEntryColumns) + sql::kListFilter +
                                                (newest_first ? sql::kListNewest : sql::kListOldest));
    row.bind(1, after_position);
    row.bind(2, kind);
    row.bind(3, actor);
    row.bind(4, capture.value);
    row.bind(5, limit);
    std::vector<StoredEntry> entries;
    while (row.executeStep()) entries.push_back(entry_of(row));
    return entries;
  });
}

Statements Store::statements(std::int64_t position) const {
  return guarded(parts_->file, [&] {
    Statements all;
    SQLite::Statement captures(parts_->database, sql::kCaptures);
    captures.bind(1, position);
    while (captures.executeStep()) {
      int at = 5;
      Capture capture;
      capture.id = CaptureId(captures.getColumn(++at).getString());
      CaptureFacts& facts = capture.facts;
      for (std::string* text : {&facts.site, &facts.pond, &facts.night, &facts.trap, &facts.name})
        *text = captures.getColumn(++at).getString();
      facts.sex = sex_named(captures.getColumn(++at).getString()).value_or(Sex::unknown);
      facts.stage = captures.getColumn(++at).getString();
      for (auto* value : {&facts.svl_mm, &facts.total_mm, &facts.mass_g}) *value = number(captures, ++at);
      facts.observer = captures.getColumn(++at).getString();
      facts.licence = captures.getColumn(++at).getString();
      for (auto* value : {&facts.latitude, &facts.longitude}) *value = number(captures, ++at);
      facts.individual = captures.getColumn(++at).getString();
      facts.notes = captures.getColumn(++at).getString();
      facts.lost = captures.getColumn(++at).getInt() != 0;
      all.captures.push_back({stamp_of(captures), std::move(capture)});
    }
    SQLite::Statement photos(parts_->database, sql::kPhotos);
    photos.bind(1, position);
    while (photos.executeStep())
      all.photos.push_back(
          {stamp_of(photos),
           {PhotoId(photos.getColumn(6).getString()), CaptureId(photos.getColumn(7).getString()),
            photos.getColumn(8).getString(), photos.getColumn(9).getInt() != 0}});
    SQLite::Statement verdicts(parts_->database, sql::kVerdicts);
    verdicts.bind(1, position);
    while (verdicts.executeStep()) {
      Verdict verdict;
      verdict.capture = CaptureId(verdicts.getColumn(6).getString());
      verdict.other = CaptureId(verdicts.getColumn(7).getString());
      verdict.answer = answer_named(verdicts.getColumn(8).getString()).value_or(Answer::cannot_tell);
      verdict.reason = verdicts.getColumn(9).getString();
      verdict.blind = verdicts.getColumn(10).getInt() != 0;
      verdict.planted = verdicts.getColumn(11).getInt() != 0;
      const std::string settles = verdicts.getColumn(12).getString();
      for (size_t from = 0; from < settles.size(); from += 37)
        verdict.settles.emplace_back(settles.substr(from, 36));
      all.verdicts.push_back({stamp_of(verdicts), std::move(verdict)});
    }
    SQLite::Statement rest(parts_->database, std::string(sql::kEntryColumns) + sql::kEntriesWithoutTable);
    rest.bind(1, position);
    while (rest.executeStep()) {
      const Entry entry = entry_of(rest).entry;
      add(all, evet::stamp_of(entry), body_of(entry));
    }
    return all;
  });
}

std::vector<CaptureId> Store::captures_with_photo(const PhotoId& photo) const {
  return guarded(parts_->file, [&] {
    SQLite::Statement row(parts_->database, sql::kCapturesWithPhoto);
    row.bind(1, photo.value);
    std::vector<CaptureId> captures;
    while (row.executeStep()) captures.emplace_back(row.getColumn(0).getString());
    return captures;
  });
}

std::optional<std::int64_t> Store::photo_entry(const PhotoId& photo, const CaptureId& capture) const {
  return guarded(parts_->file, [&]() -> std::optional<std::int64_t> {
    SQLite::Statement row(parts_->database, sql::kPhotoEntry);
    row.bind(1, photo.value);
    row.bind(2, capture.value);
    if (!row.executeStep()) return std::nullopt;
    return row.getColumn(0).getInt64();
  });
}

std::vector<PhotoId> Store::photos() const {
  return guarded(parts_->file, [&] {
    SQLite::Statement row(parts_->database, sql::kAllPhotos);
    std::vector<PhotoId> photos;
    while (row.executeStep()) photos.emplace_back(row.getColumn(0).getString());
    return photos;
  });
}

std::optional<Body> Store::first_body() const {
  return guarded(parts_->file, [&]() -> std::optional<Body> {
    SQLite::Statement row(parts_->database, std::string(sql::kEntryColumns) + sql::kFirstBody);
    if (!row.executeStep()) return std::nullopt;
    return body_of(entry_of(row).entry);
  });
}

std::vector<std::string> Store::schema_changes() const {
  return guarded(parts_->file, [&] {
    const auto schema_of = [](SQLite::Database& database) {
      std::map<std::string, std::string> schema;
      SQLite::Statement row(database, sql::kSchemaOf);
      while (row.executeStep()) schema[row.getColumn(0).getString()] = row.getColumn(1).getString();
      return schema;
    };
    SQLite::Database fresh(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    fresh.exec(sql::kSchema);
    const auto made = schema_of(fresh), found = schema_of(parts_->database);
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
    Parts anew(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, 0);
    anew.database.exec(sql::kSchema);
    anew.database.exec(sql::kWithoutKeys);   // there are no entries beside them
    parts_->database.exec(sql::kBeginRead);  // the entries and the tables of one moment
    std::vector<std::string> findings;
    try {
      each_entry(kStart, [&](const StoredEntry& stored) {
        std::visit([&](const auto& one) { anew.project(stored.position, one); }, body_of(stored.entry));
      });
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
