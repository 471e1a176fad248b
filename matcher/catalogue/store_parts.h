// The inside of a Store: its connection, and how an entry becomes rows of the other tables.
#pragma once
#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <optional>
#include <string>

#include "matcher/catalogue/database.h"
#include "matcher/catalogue/guarded_files.h"
#include "matcher/catalogue/sql.h"
#include "matcher/catalogue/statements.h"
#include "matcher/catalogue/stored_entry.h"

namespace evet {

StoredEntry entry_of(SQLite::Statement& row);  // of kEntryColumns

struct StoreParts {
  std::filesystem::path file;
  std::optional<GuardedFiles> guard;  // none in memory
  Connection database;
  // Writing statements are prepared once: an intake inserts thousands of rows.
  std::optional<SQLite::Statement> insert_entry, insert_capture, insert_photo, insert_verdict, insert_about;

  StoreParts(const std::filesystem::path& path, bool write, int flags, int busy_timeout_ms)
      : file(path),
        guard(std::in_place, write),
        database(path.string(), flags, busy_timeout_ms, guard->name()) {}
  StoreParts() : file(":memory:"), database(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE) {}

  SQLite::Statement& prepared(std::optional<SQLite::Statement>& slot, const char* sql) {
    if (!slot)
      slot.emplace(database, sql);
    else
      slot->tryReset();  // after a row that was refused it would tell of that again
    return *slot;
  }

  // A statement that failed half-way holds its pages, and with them a failed disk's error, until it is reset.
  void let_go() {
    for (auto* slot : {&insert_entry, &insert_capture, &insert_photo, &insert_verdict, &insert_about})
      if (*slot) (*slot)->tryReset();
  }

  static void bind_if_any(SQLite::Statement& row, int at, const std::optional<double>& value) {
    if (value)
      row.bind(at, *value);
    else
      row.bind(at);
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
    for (const auto* value : {&facts.svl_mm, &facts.total_mm, &facts.mass_g}) bind_if_any(row, ++at, *value);
    row.bind(++at, facts.observer);
    row.bind(++at, facts.licence);
    for (const auto* value : {&facts.latitude, &facts.longitude}) bind_if_any(row, ++at, *value);
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
  void project(std::int64_t position, const Closing& closing) {
    about(closing.capture, position);
    about(closing.other, position);
  }
  template <class Other>
  void project(std::int64_t, const Other&) {}  // tables hold nothing of it
};

}  // namespace evet
