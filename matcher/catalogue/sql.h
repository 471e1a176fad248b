// All SQL of the catalogue, and nothing else. FORMAT.md explains the tables.
#pragma once
#include <cstdint>

namespace evet::sql {

inline constexpr std::int32_t kApplicationId = 0x45564554;  // "EVET"
inline constexpr int kFormat = 1;                           // user_version of catalogue.sqlite
inline constexpr int kProjection = 1;  // raise it when what project() writes changes: they are then made anew

// For every connection. A rollback journal and not WAL: it is safe on network drives and leaves one
// file to copy. EXTRA is FULL, and also syncs the folder when the journal goes, without which a power
// cut may undo a commit.
inline constexpr const char* kConnect = R"(
PRAGMA foreign_keys = ON;
PRAGMA recursive_triggers = ON;
PRAGMA synchronous = EXTRA;
)";
inline constexpr const char* kReadOnly = "PRAGMA query_only = ON";
inline constexpr const char* kAlone = "PRAGMA locking_mode = EXCLUSIVE";
// For every connection, the cache's too; see arm().
inline constexpr int kLongestValue = 64'000'000;  // bytes
inline constexpr const char* kArmed = R"(
PRAGMA trusted_schema = OFF;
PRAGMA cell_size_check = ON;
PRAGMA mmap_size = 0;
PRAGMA temp_store = MEMORY;
)";

inline constexpr const char* kSchema = R"(
PRAGMA journal_mode = DELETE;
PRAGMA application_id = 1163281748;
PRAGMA user_version = 1;

CREATE TABLE entry (
  position   INTEGER PRIMARY KEY,
  id         TEXT NOT NULL UNIQUE,
  device     TEXT NOT NULL,
  seq        INTEGER NOT NULL CHECK (seq >= 1),
  time       TEXT NOT NULL,
  actor_kind TEXT NOT NULL CHECK (actor_kind IN ('person', 'program')),
  actor      TEXT NOT NULL,
  kind       TEXT NOT NULL,
  body       TEXT NOT NULL,
  prev       TEXT NOT NULL,
  hash       TEXT NOT NULL UNIQUE
) STRICT;
CREATE INDEX entry_device ON entry (device, seq);
CREATE INDEX entry_kind ON entry (kind, position);
CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry
  BEGIN SELECT RAISE(ABORT, 'the ledger is only ever added to'); END;
CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry
  BEGIN SELECT RAISE(ABORT, 'the ledger is only ever added to'); END;
CREATE TRIGGER entry_no_replace BEFORE INSERT ON entry
  WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR hash = NEW.hash OR position = NEW.position)
  BEGIN SELECT RAISE(ABORT, 'the ledger is only ever added to'); END;

CREATE TABLE here (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;

CREATE TABLE capture (
  position INTEGER PRIMARY KEY REFERENCES entry (position),
  id TEXT NOT NULL UNIQUE,
  site TEXT NOT NULL, pond TEXT NOT NULL, night TEXT NOT NULL, trap TEXT NOT NULL, name TEXT NOT NULL,
  sex TEXT NOT NULL, stage TEXT NOT NULL, svl_mm REAL, total_mm REAL, mass_g REAL,
  observer TEXT NOT NULL, licence TEXT NOT NULL, latitude REAL, longitude REAL,
  individual TEXT NOT NULL, notes TEXT NOT NULL, lost INTEGER NOT NULL
) STRICT;
CREATE TABLE photo (
  position INTEGER PRIMARY KEY REFERENCES entry (position),
  photo TEXT NOT NULL,
  capture TEXT NOT NULL REFERENCES capture (id) DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL,
  usable INTEGER NOT NULL
) STRICT;
CREATE INDEX photo_photo ON photo (photo);
CREATE TABLE verdict (
  position INTEGER PRIMARY KEY REFERENCES entry (position),
  capture TEXT NOT NULL REFERENCES capture (id) DEFERRABLE INITIALLY DEFERRED,
  other TEXT REFERENCES capture (id) DEFERRABLE INITIALLY DEFERRED,
  answer TEXT NOT NULL,
  reason TEXT NOT NULL,
  blind INTEGER NOT NULL,
  planted INTEGER NOT NULL,
  settles TEXT NOT NULL
) STRICT;
CREATE TABLE about (
  capture TEXT NOT NULL,
  position INTEGER NOT NULL REFERENCES entry (position),
  PRIMARY KEY (capture, position)
) STRICT, WITHOUT ROWID;
)";

inline constexpr const char* kBegin = "BEGIN IMMEDIATE";
inline constexpr const char* kCommit = "COMMIT";
inline constexpr const char* kRollback = "ROLLBACK";

inline constexpr const char* kGetHere = "SELECT value FROM here WHERE key = ?";
inline constexpr const char* kSetHere =
    "INSERT INTO here (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value";

inline constexpr const char* kInsertEntry =
    "INSERT INTO entry (id, device, seq, time, actor_kind, actor, kind, body, prev, hash) "
    "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";
inline constexpr const char* kEntryColumns =
    "SELECT position, id, device, seq, time, actor_kind, actor, kind, body, prev, hash FROM entry ";
inline constexpr const char* kEntriesAfter = "WHERE position > ? ORDER BY position";
inline constexpr const char* kEntryById = "WHERE id = ?";
inline constexpr const char* kEntryByPosition = "WHERE position = ?";
// What the tables do not say, up to a position: kinds that have none, and entries that have no row there
// since they could not be read or speak of nothing.
inline constexpr const char* kEntriesWithoutRow[] = {
    "WHERE kind IN ('correction', 'label', 'withdrawal', 'merge', 'examination', 'night', 'reading', "
    "'calibration', 'catalogue_made', 'closing') AND position <= ? ORDER BY position",
    "WHERE kind = 'capture' AND position <= ? AND NOT EXISTS "
    "(SELECT 1 FROM capture AS c WHERE c.position = entry.position) ORDER BY position",
    "WHERE kind = 'photo' AND position <= ? AND NOT EXISTS "
    "(SELECT 1 FROM photo AS p WHERE p.position = entry.position) ORDER BY position",
    "WHERE kind = 'verdict' AND position <= ? AND NOT EXISTS "
    "(SELECT 1 FROM verdict AS v WHERE v.position = entry.position) ORDER BY position"};
// A list of entries is put together of these, in this order; a condition that is always true would keep
// SQLite from its index.
inline constexpr const char* kListAfter = "WHERE position > :after ";
inline constexpr const char* kListBefore = "AND position < :before ";
inline constexpr const char* kListUntil = "AND substr(time, 1, 10) <= :until ";
inline constexpr const char* kListKind = "AND kind = :kind ";
inline constexpr const char* kListActor = "AND actor = :actor ";
inline constexpr const char* kListAbout =
    "AND position IN (SELECT position FROM about WHERE capture = :capture) ";
inline constexpr const char* kListOldest = "ORDER BY position LIMIT :limit";
inline constexpr const char* kListNewest = "ORDER BY position DESC LIMIT :limit";
inline constexpr const char* kHeads =
    "SELECT device, seq, hash FROM entry AS e WHERE seq = (SELECT MAX(seq) FROM entry WHERE device = "
    "e.device) "
    "ORDER BY device, position";
// Entries that no other follows; of a chain that forked, several.
inline constexpr const char* kEnds =
    "SELECT device, seq, hash FROM entry AS e WHERE NOT EXISTS (SELECT 1 FROM entry AS n WHERE n.device = "
    "e.device AND n.seq = e.seq + 1 AND n.prev = e.hash) ORDER BY device, seq, hash";
inline constexpr const char* kHeadOfDevice =
    "SELECT seq, hash FROM entry WHERE device = ? ORDER BY seq DESC, position DESC LIMIT 1";
inline constexpr const char* kLastId = "SELECT COALESCE(MAX(id), '') FROM entry WHERE id < ?";
inline constexpr const char* kLastPosition = "SELECT COALESCE(MAX(position), 0) FROM entry";
inline constexpr const char* kFirstBody = "WHERE kind = 'catalogue_made' ORDER BY id";

inline constexpr const char* kClearProjections[] = {"DELETE FROM about", "DELETE FROM verdict",
                                                    "DELETE FROM photo", "DELETE FROM capture"};
inline constexpr const char* kInsertCapture =
    "INSERT INTO capture (position, id, site, pond, night, trap, name, sex, stage, svl_mm, total_mm, mass_g, "
    "observer, "
    "licence, latitude, longitude, individual, notes, lost) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
    "?, ?, ?, ?, ?, ?)";
inline constexpr const char* kInsertPhoto =
    "INSERT INTO photo (position, photo, capture, name, usable) VALUES (?, ?, ?, ?, ?)";
inline constexpr const char* kInsertVerdict =
    "INSERT INTO verdict (position, capture, other, answer, reason, blind, planted, settles) "
    "VALUES (?, ?, ?, ?, ?, ?, ?, ?)";
inline constexpr const char* kInsertAbout = "INSERT OR IGNORE INTO about (capture, position) VALUES (?, ?)";

inline constexpr const char* kHasCapture = "SELECT 1 FROM capture WHERE id = ?";
inline constexpr const char* kHasPhoto = "SELECT 1 FROM photo WHERE photo = ? LIMIT 1";
// By the spelling of canonical JSON; a reason that spells it as well only spares a notice.
inline constexpr const char* kHasSigned =
    "SELECT 1 FROM entry WHERE actor_kind = 'person' AND actor = ? AND "
    "instr(body, '\"signed\":{\"key\":\"' || ?) > 0 LIMIT 1";
inline constexpr const char* kHasEntry = "SELECT 1 FROM entry WHERE id = ?";

// The stamp's columns come first and last, as store.cpp reads them. Between: positions in (?, ?].
inline constexpr const char* kCaptures =
    "SELECT e.id, e.device, e.seq, e.time, e.actor_kind, e.actor, c.id, site, pond, night, trap, name, sex, "
    "stage, "
    "svl_mm, total_mm, mass_g, observer, licence, latitude, longitude, individual, notes, lost "
    "FROM capture AS c JOIN entry AS e USING (position) WHERE c.position <= ? ORDER BY c.position";
inline constexpr const char* kPhotos =
    "SELECT e.id, e.device, e.seq, e.time, e.actor_kind, e.actor, photo, capture, name, usable "
    "FROM photo AS p JOIN entry AS e USING (position) WHERE p.position <= ? ORDER BY p.position";
inline constexpr const char* kVerdicts =
    "SELECT e.id, e.device, e.seq, e.time, e.actor_kind, e.actor, capture, other, answer, reason, blind, "
    "planted, "
    "settles FROM verdict AS v JOIN entry AS e USING (position) WHERE v.position <= ? ORDER BY v.position";
inline constexpr const char* kCapturesWithPhoto =
    "SELECT capture FROM photo WHERE photo = ? GROUP BY capture ORDER BY MIN(position)";
inline constexpr const char* kPhotoEntry =
    "SELECT position FROM photo WHERE photo = ? AND capture = ? ORDER BY position LIMIT 1";
inline constexpr const char* kAllPhotos = "SELECT DISTINCT photo FROM photo ORDER BY photo";

// What tells one schema from another, and a table from its like made anew.
inline constexpr const char* kSchemaOf =
    "SELECT type || ' ' || name, COALESCE(sql, '') FROM sqlite_schema WHERE name NOT LIKE 'sqlite_stat%' "
    "ORDER BY 1";
inline constexpr const char* kProjections[][2] = {
    {"capture", "SELECT * FROM capture ORDER BY position"},
    {"photo", "SELECT * FROM photo ORDER BY position"},
    {"verdict", "SELECT * FROM verdict ORDER BY position"},
    {"about", "SELECT position, capture FROM about ORDER BY position, capture"}};
inline constexpr const char* kWithoutKeys = "PRAGMA foreign_keys = OFF";
inline constexpr const char* kBeginRead = "BEGIN";

inline constexpr const char* kRollbackJournal = "PRAGMA journal_mode = DELETE";
// Of a damaged file: from either end, by the table itself.
inline constexpr const char* kSalvageForward = "NOT INDEXED ORDER BY position";
inline constexpr const char* kSalvageBackward = "NOT INDEXED ORDER BY position DESC";

inline constexpr const char* kQuickCheck = "PRAGMA integrity_check(20)";
inline constexpr const char* kForeignKeyCheck = "PRAGMA foreign_key_check";

// The cache's own file. `sum` is the SHA-256 of what stands in the row.
inline constexpr const char* kCacheSchema = R"(
CREATE TABLE IF NOT EXISTS block (
  photo TEXT NOT NULL, what TEXT NOT NULL, maker TEXT NOT NULL, bytes BLOB NOT NULL, sum TEXT NOT NULL,
  PRIMARY KEY (photo, what)
) STRICT;
)";
inline constexpr const char* kCacheLocal = "PRAGMA journal_mode = WAL; PRAGMA synchronous = NORMAL;";
inline constexpr const char* kCacheNetwork = "PRAGMA journal_mode = DELETE; PRAGMA synchronous = OFF;";
inline constexpr const char* kCacheGet =
    "SELECT bytes, sum FROM block WHERE photo = ? AND what = ? AND maker = ?";
inline constexpr const char* kCacheAll =
    "SELECT photo, what, maker, bytes, sum FROM block ORDER BY photo, what";
inline constexpr const char* kCacheKeep =
    "INSERT INTO block (photo, what, maker, bytes, sum) VALUES (?, ?, ?, ?, ?) ON CONFLICT (photo, what) DO "
    "UPDATE SET maker = excluded.maker, bytes = excluded.bytes, sum = excluded.sum";

}  // namespace evet::sql
