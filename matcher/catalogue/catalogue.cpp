#include "matcher/catalogue/catalogue.h"

#include <spdlog/spdlog.h>

#include <cassert>
#include <mutex>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/base/printable.h"
#include "matcher/base/uuid.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/altered.h"
#include "matcher/catalogue/catalogue_parts.h"
#include "matcher/catalogue/database.h"
#include "matcher/catalogue/fields.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/own_databases.h"
#include "matcher/catalogue/signature.h"
#include "matcher/catalogue/sql.h"
#include "matcher/catalogue/taken_over.h"
#include "matcher/catalogue/without_file.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

std::int32_t big_endian(const Bytes& bytes, size_t at) {
  std::uint32_t value = 0;
  for (size_t i = at; i < at + 4; ++i) value = value << 8 | std::to_integer<std::uint32_t>(bytes[i]);
  return static_cast<std::int32_t>(value);
}

// Judges the file before SQLite touches it. Offsets: the SQLite file format, section 1.3.
void check_header(const fs::path& folder, Env& env) {
  if (!env.exists(folder))
    throw Error(ErrorKind::not_found, folder.string(), messages::kNoSuchFolder,
                messages::kMakeCatalogueFirst);
  const fs::path file = folder / kDatabaseName;
  const auto not_one = [&](const MessageText& wrong) {
    return Error(ErrorKind::bad_input, folder.string(),
                 Message(messages::kIsNoCatalogue,
                         {{"wrong", Message(wrong, {{"file", std::string(kDatabaseName)}})}}),
                 messages::kNameFolderMadeWithEvet);
  };
  switch (env.facts(file).kind) {
    case FileKind::none:
      throw not_one(messages::kDatabaseMissing);
    case FileKind::link:
      throw not_one(messages::kDatabaseIsLink);
    case FileKind::folder:
    case FileKind::other:
      throw not_one(messages::kDatabaseIsNoFile);
    case FileKind::file:
      break;
  }
  const Bytes head = database_start(file, 100);
  static constexpr char kMagic[] = "SQLite format 3";
  if (head.size() < 100 ||
      !std::equal(kMagic, kMagic + sizeof kMagic, reinterpret_cast<const char*>(head.data())))
    throw not_one(messages::kFileIsNoDatabase);
  if (big_endian(head, 68) != sql::kApplicationId) throw not_one(messages::kDatabaseOfAnotherProgram);
  if (const int format = big_endian(head, 60); format != sql::kFormat)
    throw Error(ErrorKind::unsupported, folder.string(),
                Message(messages::kFormatIsNewer,
                        {{"format", std::to_string(format)}, {"format2", std::to_string(sql::kFormat)}}),
                messages::kUseNewerVersionOfFormat);
  // Offsets 18 and 19: 1 for a rollback journal. With another a reader would have to write.
  if (std::to_integer<int>(head[18]) != 1 || std::to_integer<int>(head[19]) != 1)
    throw Error(ErrorKind::bad_input, folder.string(), messages::kAnotherJournalMode,
                Message(messages::kPutJournalModeBack, {{"file", file.string()}}));
}

// A catalogue is one folder: what it leads to elsewhere is not its own, to be read or written.
void check_own(const fs::path& folder, Env& env) {
  for (const char* name : {"photos", "cache"})
    if (const FileKind kind = env.facts(folder / name).kind; kind == FileKind::link)
      throw AlteredCatalogue((folder / name).string(),
                             {messages::kLinkElsewhere, messages::kPutTheFolderThere});
}

}  // namespace

void CatalogueOptions::check() const {
  assert(busy_timeout_ms >= 0);
}

Catalogue::Catalogue(std::unique_ptr<CatalogueParts> parts) : parts_(std::move(parts)) {}
Catalogue::Catalogue(Catalogue&&) noexcept = default;
Catalogue& Catalogue::operator=(Catalogue&&) noexcept = default;
Catalogue::~Catalogue() = default;

CatalogueParts::CatalogueParts(const fs::path& at, Env& machine, bool write, int busy_timeout_ms,
                               std::unique_ptr<PlayedBack> played_back)
    : folder(at),
      env(&machine),
      writable(write),
      copy(std::move(played_back)),
      store(copy ? copy->file() : at / kDatabaseName, write, busy_timeout_ms),
      photos(at / "photos", machine),
      cache(at / "cache", machine, write) {}
CatalogueParts::CatalogueParts(const fs::path& at, Env& machine, Store in_memory,
                               std::optional<FoundApart> found)
    : folder(at),
      env(&machine),
      writable(false),
      store(std::move(in_memory)),
      apart(std::move(found)),
      photos(at / "photos", machine) {}

// Tables and cache as well, for reading all that there is.
void CatalogueParts::complete() {
  store.transaction([&] { store.rebuild_projections(); });
  cache = Cache(folder / "cache", *env, false);
}

namespace {

constexpr const char* kPartTail = ".part";

// The file with its first entry, still under another name.
void write_first(const fs::path& part, const std::string& title, const Actor& actor, Env& env) {
  Store::create(part);
  Store store(part, true, 0);
  Entry first;
  first.id = EntryId(uuid7(env));
  first.device = DeviceId(uuid7(env));
  first.seq = 1;
  first.time = to_text(env.now());
  first.actor = actor;
  const Body body = CatalogueMade{title, kProgram};
  first.kind = kind_of(body);
  first.body = body_text(body);
  body_of(first);  // what is written must be readable again
  sign(first);
  first.hash = hash_of(first);
  store.transaction([&] {
    store.insert(first, body);
    store.set_here("device", first.device.value);
    store.set_here("device_file", env.identity(part));
    store.set_here("projection", std::to_string(sql::kProjection));
  });
}

}  // namespace

// Two programs may make the same catalogue at once: each has a file of its own, and the first to give its
// file the name has made it.
Catalogue Catalogue::create(const fs::path& folder, const std::string& title, const Actor& actor, Env& env) {
  const fs::path file = folder / kDatabaseName;
  const std::string parts = std::string(kDatabaseName) + kPartTail;
  const auto taken = [&] {
    return Error(ErrorKind::conflict, folder.string(), messages::kCatalogueIsThereAlready,
                 messages::kUseItOrNameAnother);
  };
  if (env.exists(file)) throw taken();
  if (env.exists(folder))
    for (const std::string& name : env.list_folder(folder))
      // What an earlier attempt that was cut short left behind does not stand in the way.
      if (name != "photos" && name != "cache" && !name.starts_with(parts))
        throw Error(ErrorKind::conflict, folder.string(),
                    Message(messages::kHoldsOtherFiles, {{"name", name}}), messages::kNameEmptyFolder);
  check_own(folder, env);
  make_folders_durably(env, folder / "photos");
  make_folders_durably(env, folder / "cache");
  const fs::path part = folder / (parts + "-" + uuid7(system_env()));
  try {
    write_first(part, title, actor, env);
    env.rename_new(part, file);
  } catch (const Error&) {
    if (!env.exists(file)) throw;
    env.remove(part);
    throw taken();
  }
  remember_as_own(file, env);
  env.sync_folder(folder);
  for (const std::string& name : env.list_folder(folder))
    if (name.starts_with(parts)) env.remove(folder / name);
  return open(folder, env);
}

namespace {

void check_journal(const fs::path& folder) {
  if (journal_names_a_file(folder / kDatabaseName))
    throw AlteredCatalogue(folder.string(),
                           {Message(messages::kForeignJournal, {{"database", kDatabaseName}}),
                            messages::kUseUnalteredOrDropJournal});
}

}  // namespace

Catalogue Catalogue::open_apart(const fs::path& folder, Env& env, bool for_audit,
                                const CatalogueOptions& options) {
  const ReadersApart* readers = ReadersApart::in_use();
  if (readers == nullptr) return open(folder, env, options);
  options.check();
  check_header(folder, env);
  check_own(folder, env);
  check_journal(folder);
  const fs::path file = folder / kDatabaseName;
  FoundApart found{readers->ledger(file, for_audit, options.busy_timeout_ms), {}};
  Store store = store_of(file, found.ledger, for_audit, for_audit);  // a merge needs the entries alone
  if (for_audit) found.cache = Cache::damaged_apart(folder / "cache", env, *readers);
  return Catalogue(std::make_unique<CatalogueParts>(
      folder, env, std::move(store), for_audit ? std::optional(std::move(found)) : std::nullopt));
}

Catalogue Catalogue::open(const fs::path& folder, Env& env, const CatalogueOptions& options) {
  options.check();
  check_header(folder, env);
  check_own(folder, env);
  const bool write = options.access == Access::write;
  if (write && !(env.is_writable(folder) && env.is_writable(folder / kDatabaseName)))
    throw Error(ErrorKind::storage, folder.string(), messages::kMayNotBeWritten,
                messages::kMakeFolderWritableOrCopy);
  const fs::path file = folder / kDatabaseName;
  check_journal(folder);
  // One at a time: who reads it apart closes a file on which the other has locks (shared_lock.h).
  static std::mutex one_at_a_time;
  if (const std::lock_guard lock(one_at_a_time); from_elsewhere(file, env)) {
    if (!write) {
      Catalogue apart = open_apart(folder, env, false, options);
      parts_of(apart).complete();
      return apart;
    }
    take_over(file, env, *ReadersApart::in_use(), options.busy_timeout_ms);
  }
  // What a killed program left half written is taken back by whoever writes next. A reader changes nothing,
  // and reads a copy of its own in which it is taken back.
  std::unique_ptr<PlayedBack> played_back;
  if (!write && Store(file, false, options.busy_timeout_ms).needs_playback()) {
    played_back = std::make_unique<PlayedBack>(env, file);
    Store(played_back->file(), true, options.busy_timeout_ms).last_position();
  }
  auto parts =
      std::make_unique<CatalogueParts>(folder, env, write, options.busy_timeout_ms, std::move(played_back));
  if (write && !parts->store.projections_current())
    parts->store.transaction([&] { parts->store.rebuild_projections(); });
  return Catalogue(std::move(parts));
}

// Inside a transaction: the chain this folder writes to. A copied folder starts one of its own, or both
// copies would write the same numbers; its first entry says what the chains it came with had reached.
Chain CatalogueParts::chain(const Actor& actor) {
  const std::string identity = env->identity(folder / kDatabaseName);
  Chain chain{DeviceId(store.here("device").value_or("")), {}, store.last_id()};
  if (store.here("device_file") == identity) {
    if (const auto head = store.head(chain.device)) chain.head = *head;
    return chain;
  }
  const std::set<PhotoId> without = without_file(store, photos);  // as the copied device said
  chain.device = DeviceId(uuid7(*env));
  store.set_here("device", chain.device.value);
  store.set_here("device_file", identity);
  add(chain, actor,
      Merge{.heads = store.heads(), .reason = "copied", .without_file = {without.begin(), without.end()}});
  return chain;
}

// A reader's first signature in this catalogue, and the first with another key than before.
void CatalogueParts::tell_of_key(const Entry& entry, const std::string& key) {
  if (entry.actor.kind != ActorKind::person || !keys_seen.emplace(entry.actor.name, key).second) return;
  if (store.has_signed(entry.actor.name, key)) return;
  const bool another = store.has_signed(entry.actor.name, "");
  spdlog::info(Message(another ? messages::kSignsWithAnotherKey : messages::kSignsForFirstTime,
                       {{"who", printable(entry.actor.name)}, {"key", key_words(key)}})
                   .words());
}

Entry CatalogueParts::add(Chain& chain, const Actor& actor, const Body& body) {
  Entry entry;
  entry.id = EntryId(uuid7_after(*env, chain.last_id));
  if (entry.id.value >= kIdBound)
    throw Error(ErrorKind::storage, folder.string(), messages::kNewestEntryOf2200,
                messages::kSetThisClockOrAudit);
  entry.device = chain.device;
  entry.seq = chain.head.seq + 1;
  entry.time = to_text(env->now());
  entry.actor = actor;
  entry.kind = kind_of(body);
  entry.body = body_text(body);
  entry.prev = chain.head.hash;
  if (const auto key = sign(entry)) tell_of_key(entry, *key);
  entry.hash = hash_of(entry);
  store.insert(entry, body);
  chain.head = {entry.seq, entry.hash};
  chain.last_id = entry.id.value;
  return entry;
}

namespace {

// Whether what a body names is there, in the store or among what comes with it.
struct ReferenceCheck {
  const Store& store;
  const PhotoStore& photos;
  std::set<CaptureId> new_captures;
  std::set<PhotoId> new_photos;

  void capture(const CaptureId& id) const {
    if (!new_captures.contains(id) && !store.has_capture(id))
      throw Error(ErrorKind::bad_input, "capture " + id.value, messages::kIsNotInCatalogue);
  }
  void photo_entry(const PhotoId& id) const {
    if (!new_photos.contains(id) && !store.has_photo(id))
      throw Error(ErrorKind::bad_input, "photo " + id.value, messages::kIsNotInCatalogue);
  }
  void entry(const EntryId& id) const {
    if (!store.has_entry(id))
      throw Error(ErrorKind::bad_input, "entry " + id.value, messages::kIsNotInCatalogue);
  }
  void operator()(const Capture& body) {
    if (new_captures.contains(body.id) || store.has_capture(body.id))
      throw Error(ErrorKind::conflict, "capture " + body.id.value, messages::kIsInCatalogueAlready);
    new_captures.insert(body.id);
  }
  void operator()(const PhotoTaken& body) {
    capture(body.capture);
    if (!photos.has(body.photo))
      throw Error(ErrorKind::bad_input, "photo " + body.photo.value, messages::kFileIsNotInCatalogue);
    new_photos.insert(body.photo);
  }
  void operator()(const Reexamined& body) const { photo_entry(body.photo); }
  void operator()(const Correction& body) const { capture(body.capture); }
  void operator()(const LabelGiven& body) const { capture(body.capture); }
  void operator()(const Reading& body) const { capture(body.capture); }
  void operator()(const Closing& body) const {
    capture(body.capture);
    if (!body.other.empty()) capture(body.other);
  }
  void operator()(const Verdict& body) const {
    capture(body.capture);
    if (!body.other.empty()) capture(body.other);
    for (const EntryId& settled : body.settles) entry(settled);
  }
  void operator()(const Withdrawal& body) const { entry(body.target); }
  template <class Other>
  void operator()(const Other&) const {}
};

}  // namespace

std::vector<Entry> Catalogue::append(const Actor& actor, const std::vector<Body>& bodies) {
  if (!parts_->writable) throw Error(ErrorKind::storage, folder().string(), messages::kOpenForReadingOnly);
  if (actor.name.empty())
    throw Error(ErrorKind::bad_input, "reader", messages::kIsEmptyValue, messages::kNameReaderOrCode);
  if (actor.name.size() > kShortText)
    throw Error(ErrorKind::bad_input, "reader",
                Message(messages::kReaderTakesBytes, {{"actor", std::to_string(actor.name.size())}}),
                Message(messages::kUseAtMost, {{"at_most", std::to_string(kShortText)}}));
  std::vector<Entry> entries;
  parts_->store.transaction([&] {
    ReferenceCheck check{parts_->store, parts_->photos, {}, {}};
    for (const Body& body : bodies) {
      std::visit(check, body);
      // What is written must be readable again.
      body_of({{}, {}, 0, {}, actor, kind_of(body), body_text(body), {}, {}});
    }
    Chain chain = parts_->chain(actor);
    for (const Body& body : bodies) entries.push_back(parts_->add(chain, actor, body));
  });
  return entries;
}

CaptureId Catalogue::new_capture_id() {
  return CaptureId(uuid7(*parts_->env));
}

PhotoId Catalogue::store_photo(BytesView bytes) {
  return parts_->photos.keep(bytes);
}
bool Catalogue::has_photo(const PhotoId& photo) const {
  return parts_->photos.has(photo);
}
Bytes Catalogue::read_photo(const PhotoId& photo) const {
  return parts_->photos.read(photo);
}
std::vector<CaptureId> Catalogue::captures_with_photo(const PhotoId& photo) {
  return parts_->store.captures_with_photo(photo);
}

PhotoTaken Catalogue::photo(const PhotoId& photo, const CaptureId& capture) {
  const auto position = parts_->store.photo_entry(photo, capture);
  if (!position) throw Error(ErrorKind::not_found, "photo " + photo.value, messages::kIsNotInCatalogue);
  auto taken = std::get<PhotoTaken>(body_of(parts_->store.entry_at(*position)->entry));
  const Said<UsableSaid>* newest = nullptr;
  std::optional<Retractions> retractions;  // worked out only for the few photos that were examined again
  for (const auto& said : statements().examinations) {
    if (said.what.photo != photo || (newest != nullptr && said.stamp.id < newest->stamp.id)) continue;
    if (!retractions) retractions.emplace(parts_->statements);
    if (!retractions->retracts(said.stamp.id)) newest = &said;
  }
  if (newest != nullptr)
    taken.examination =
        std::get<Reexamined>(body_of(parts_->store.entry(newest->stamp.id)->entry)).examination;
  return taken;
}

void CatalogueParts::refresh() {
  const std::int64_t last = store.last_position();
  if (last == read_to) return;
  if (read_to == 0 && store.projections_current()) {
    statements = store.statements(last);
  } else {
    store.each_entry(read_to, [&](const StoredEntry& stored) {
      if (stored.position <= last) evet::add(statements, stored.entry);
    });
  }
  read_to = last;
}

const Statements& Catalogue::statements() {
  parts_->refresh();
  return parts_->statements;
}

const Identities& Catalogue::identities() {
  parts_->refresh();
  return parts_->identities.update(parts_->statements);
}

Identities Catalogue::identities_as_of(const std::string& date_or_time) {
  return fold(as_it_stood(statements(), date_or_time));
}

std::vector<ListedEntry> Catalogue::ledger(const LedgerQuery& query) const {
  std::vector<ListedEntry> listed;
  for (StoredEntry& stored : parts_->store.list(query))
    if (query.kind.empty() || readable(stored.entry))
      listed.push_back({stored.position, std::move(stored.entry)});
  return listed;
}

std::optional<ListedEntry> Catalogue::entry(const EntryId& id) const {
  auto stored = parts_->store.entry(id);
  if (!stored) return std::nullopt;
  return ListedEntry{stored->position, std::move(stored->entry)};
}

std::string Catalogue::head_hash() const {
  // Every write ends in an entry of this folder's chain, which covers what was merged in
  // through its Merge entry.
  const auto last = parts_->store.entry_at(parts_->store.last_position());
  return last ? last->entry.hash : std::string();
}

std::string Catalogue::title() const {
  const auto body = parts_->store.first_body();
  return body ? std::get<CatalogueMade>(*body).title : std::string();
}

Cache& Catalogue::cache() {
  return parts_->cache;
}
const fs::path& Catalogue::folder() const {
  return parts_->folder;
}

std::vector<std::string> Catalogue::warnings() const {
  std::vector<std::string> warnings;
  if (parts_->env->on_network_drive(parts_->folder))
    warnings.push_back(Message(messages::kOnNetworkDrive, {{"folder", parts_->folder.string()}}).words());
  if (parts_->writable && !parts_->cache.usable())
    warnings.push_back(
        Message(messages::kCacheUnusable, {{"cache", parts_->folder.string() + "/cache"}}).words());
  return warnings;
}

}  // namespace evet
