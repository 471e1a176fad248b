#include "matcher/catalogue/store.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <nlohmann/json.hpp>
#include <unordered_set>

#include "matcher/catalogue/altered.h"
#include "matcher/catalogue/database.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/sql.h"
#include "matcher/catalogue/store_parts.h"

namespace evet {
namespace {

Stamp stamp_of(SQLite::Statement& row) {
  return {EntryId(row.getColumn(0).getString()),
          DeviceId(row.getColumn(1).getString()),
          row.getColumn(2).getInt64(),
          row.getColumn(3).getString(),
          {row.getColumn(4).getString() == "program" ? ActorKind::program : ActorKind::person,
           row.getColumn(5).getString()}};
}

std::optional<double> number(SQLite::Statement& row, int at) {
  const SQLite::Column column = row.getColumn(at);
  return column.isNull() ? std::nullopt : std::optional<double>(column.getDouble());
}

}  // namespace

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

void Store::create(const std::filesystem::path& file) {
  guarded(file, [&] {
    StoreParts parts(file, true, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, 0);
    arm(parts.database, true);
    parts.database.exec(sql::kConnect);
    parts.database.exec(sql::kSchema);
  });
}

Store::Store(std::unique_ptr<StoreParts> parts) : parts_(std::move(parts)) {}
Store Store::in_memory(const std::filesystem::path& file) {
  return guarded(file, [&] {
    auto parts = std::make_unique<StoreParts>();
    parts->file = file;
    arm(parts->database, true);
    parts->database.exec(sql::kSchema);
    parts->database.exec(sql::kConnect);
    return Store(std::move(parts));
  });
}

Store::Store(const std::filesystem::path& file, bool write, int busy_timeout_ms) {
  guarded(file, [&] {
    parts_ = std::make_unique<StoreParts>(file, write, write ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY,
                                          busy_timeout_ms);
    arm(parts_->database, write);
    if (!write && needs_playback()) return;
    parts_->database.exec(sql::kConnect);
    if (!write) parts_->database.exec(sql::kReadOnly);
    if (const std::string harmful = harmful_schema(parts_->database, schema_as_made()); !harmful.empty())
      throw AlteredCatalogue(file.string(), {Message(messages::kHarmfulSchema, {{"what", harmful}}),
                                             messages::kUseCopyNobodyHasAltered});
  });
}

bool Store::needs_playback() const {
  try {
    SQLite::Statement(parts_->database, sql::kSchemaOf).executeStep();
  } catch (const SQLite::Exception& error) {
    if (error.getExtendedErrorCode() == SQLITE_READONLY_ROLLBACK) return true;
    throw;
  }
  return false;
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
    const std::int64_t position = insert(entry);
    std::visit([&](const auto& one) { parts_->project(position, one); }, body);
    return position;
  });
}

std::int64_t Store::insert(const Entry& entry) {
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
    return parts_->database.getLastInsertRowid();
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
    project_all(*parts_);
    set_here("projection", std::to_string(sql::kProjection));
  });
}

// Of every entry that can be read, captures first; what speaks of no capture that is there has no row, as in
// the fold it says nothing.
void Store::project_all(StoreParts& into) const {
  std::unordered_set<std::string> captures;
  const auto known = [&](const CaptureId& id) { return id.empty() || captures.contains(id.value); };
  const auto has_row = [&](const Body& body) {
    if (const auto* capture = std::get_if<Capture>(&body)) return captures.insert(capture->id.value).second;
    if (const auto* photo = std::get_if<PhotoTaken>(&body)) return known(photo->capture);
    if (const auto* verdict = std::get_if<Verdict>(&body))
      return known(verdict->capture) && known(verdict->other);
    return true;
  };
  for (const bool first : {true, false})
    each_entry(kStart, [&](const StoredEntry& stored) {
      if ((stored.entry.kind == Capture::kKind) != first) return;
      const auto body = readable(stored.entry);
      if (body && has_row(*body))
        std::visit([&](const auto& one) { into.project(stored.position, one); }, *body);
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
  return guarded(parts_->file, [&] {
    SQLite::Statement row(parts_->database, sql::kLastId);
    row.bind(1, kIdBound);
    return row.executeStep() ? row.getColumn(0).getString() : std::string();
  });
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

std::vector<std::pair<DeviceId, Merge::Head>> Store::ends() const {
  return guarded(parts_->file, [&] {
    std::vector<std::pair<DeviceId, Merge::Head>> ends;
    SQLite::Statement row(parts_->database, sql::kEnds);
    while (row.executeStep())
      ends.push_back({DeviceId(row.getColumn(0).getString()),
                      {row.getColumn(1).getInt64(), row.getColumn(2).getString()}});
    return ends;
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

bool Store::has_signed(const std::string& person, const std::string& key) const {
  return guarded(parts_->file, [&] {
    SQLite::Statement row(parts_->database, sql::kHasSigned);
    row.bind(1, person);
    row.bind(2, key);
    return row.executeStep();
  });
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

std::vector<StoredEntry> Store::list(const LedgerQuery& query) const {
  return guarded(parts_->file, [&] {
    std::string question = std::string(sql::kEntryColumns) + sql::kListAfter;
    if (query.before_position > 0) question += sql::kListBefore;
    if (!query.kind.empty()) question += sql::kListKind;
    if (!query.actor.empty()) question += sql::kListActor;
    if (!query.until.empty()) question += sql::kListUntil;
    if (!query.capture.empty()) question += sql::kListAbout;
    SQLite::Statement row(parts_->database,
                          question + (query.newest_first ? sql::kListNewest : sql::kListOldest));
    row.bind(":after", query.after_position);
    if (query.before_position > 0) row.bind(":before", query.before_position);
    if (!query.kind.empty()) row.bind(":kind", query.kind);
    if (!query.actor.empty()) row.bind(":actor", query.actor);
    if (!query.until.empty()) row.bind(":until", query.until);
    if (!query.capture.empty()) row.bind(":capture", query.capture.value);
    row.bind(":limit", query.limit);
    std::vector<StoredEntry> entries;
    while (row.executeStep()) entries.push_back(entry_of(row));
    return entries;
  });
}

namespace {

// A row of kCaptures, and of kVerdicts.
Capture capture_in(SQLite::Statement& captures) {
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
  return capture;
}

Verdict verdict_in(SQLite::Statement& verdicts) {
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
  return verdict;
}

}  // namespace

Statements Store::statements(std::int64_t position) const {
  return guarded(parts_->file, [&] {
    Statements all;
    SQLite::Statement captures(parts_->database, sql::kCaptures);
    captures.bind(1, position);
    const auto counts = [&](const Stamp& stamp) {
      const std::string wrong = wrong_with_signing(stamp.id, stamp.actor);
      if (!wrong.empty()) all.set_aside.push_back({stamp.id, wrong});
      return wrong.empty();
    };
    while (captures.executeStep()) {
      const Stamp stamp = stamp_of(captures);
      if (!counts(stamp)) continue;
      all.captures.push_back({stamp, capture_in(captures)});
    }
    SQLite::Statement photos(parts_->database, sql::kPhotos);
    photos.bind(1, position);
    while (photos.executeStep())
      if (const Stamp stamp = stamp_of(photos); counts(stamp))
        all.photos.push_back(
            {stamp,
             {PhotoId(photos.getColumn(6).getString()), CaptureId(photos.getColumn(7).getString()),
              photos.getColumn(8).getString(), photos.getColumn(9).getInt() != 0}});
    SQLite::Statement verdicts(parts_->database, sql::kVerdicts);
    verdicts.bind(1, position);
    while (verdicts.executeStep()) {
      const Stamp stamp = stamp_of(verdicts);
      if (!counts(stamp)) continue;
      all.verdicts.push_back({stamp, verdict_in(verdicts)});
    }
    for (const char* without_row : sql::kEntriesWithoutRow) {
      SQLite::Statement rest(parts_->database, std::string(sql::kEntryColumns) + without_row);
      rest.bind(1, position);
      while (rest.executeStep()) add(all, entry_of(rest).entry);
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
    while (row.executeStep())
      if (auto body = readable(entry_of(row).entry)) return body;
    return std::nullopt;
  });
}

}  // namespace evet
