#include "matcher/catalogue/read_apart.h"

#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <atomic>

#include "matcher/base/error.h"
#include "matcher/catalogue/altered.h"
#include "matcher/catalogue/apart_wire.h"
#include "matcher/catalogue/cache_rows.h"
#include "matcher/catalogue/handed_files.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/shared_lock.h"
#include "matcher/catalogue/store.h"
#include "matcher/photo/sandbox.h"

namespace evet {
namespace {

std::atomic<ReadersApart*> used{nullptr};

enum class Asked : std::uint8_t { entries, audit, cache };

constexpr std::size_t kLongestPath = 10'000;

std::uint64_t bytes_of(int descriptor) {
  struct stat facts {};
  return ::fstat(descriptor, &facts) == 0 ? static_cast<std::uint64_t>(facts.st_size) : 0;
}

// The process apart.

void tell_rows(const Store& store, ApartTeller& tell) {
  const std::int64_t last = store.last_position();
  store.each_entry(Store::kStart, [&](const StoredEntry& stored) {
    if (stored.position <= last) tell.row(stored);
  });
}

// What breaks on the way is a finding like others.
void step(ApartTeller& tell, ToldOf of, const std::function<std::vector<Message>()>& look) {
  try {
    for (const Message& one : look()) tell.finding(of, one.words());
  } catch (const LineBroken&) {
    throw;
  } catch (const Error& error) {
    tell.finding(of, error.what());
  }
}

void read_ledger(Asked asked, const std::filesystem::path& name, bool play_back, ApartTeller& tell) {
  if (play_back) Store(name, true, 0).last_position();
  const Store store(name, false, 0);
  step(tell, ToldOf::device, [&] { return std::vector{bare(store.here("device").value_or(""))}; });
  if (asked == Asked::entries) return tell_rows(store, tell);
  step(tell, ToldOf::database, [&] { return store.integrity(); });
  step(tell, ToldOf::database, [&] { return store.schema_changes(); });
  step(tell, ToldOf::ledger, [&] {
    tell_rows(store, tell);
    return std::vector<Message>();
  });
  step(tell, ToldOf::projections, [&] { return store.stale_projections(); });
}

// A short name that needs no care within SQLite's own.
constexpr const char* kCacheName = "/patterns";

void read_cache(bool with_wal, ApartTeller& tell) {
  for (const PhotoId& photo : damaged_where_handed(kCacheName, with_wal))
    tell.finding(ToldOf::cache, photo.value);
}

// A request: what, the file's name, whether a journal or a -wal comes with it, then the files.
void serve(Line& line) {
  const auto asked = static_cast<Asked>(line.get_value<std::uint8_t>());
  const std::filesystem::path asked_for = line.get_text(kLongestPath),
                              name = asked == Asked::cache ? kCacheName : asked_for;
  const bool beside = line.get_value<std::uint8_t>() != 0;
  const std::vector<int> files = take_files(beside ? 2 : 1);
  hand_to_sqlite();
  constexpr std::uint64_t kAtLeast = 500'000'000;  // SQLite's own, and the longest values
  confine({.memory_bytes = kAtLeast + 3 * (bytes_of(files[0]) + (beside ? bytes_of(files[1]) : 0))});
  ApartTeller tell(line);
  try {
    const bool play_back = beside && asked != Asked::cache;
    if (play_back)
      hand_file(name, read_whole(files[0], name));
    else
      hand_file(name, files[0]);
    if (beside) hand_file(name.string() + (play_back ? "-journal" : "-wal"), read_whole(files[1], name));
    if (asked == Asked::cache)
      read_cache(beside, tell);
    else
      read_ledger(asked, name, play_back, tell);
    tell.done();
  } catch (const LineBroken&) {
    throw;
  } catch (const AlteredCatalogue& error) {
    tell.error({error.kind(), true, error.reason().words()});
  } catch (const Error& error) {
    tell.error({error.kind(), false, error.reason().words()});
  } catch (const std::exception&) {  // std::bad_alloc
    tell.error({ErrorKind::too_large, false, Message(messages::kReadingTakesMuchMemory).words()});
  }
}

// Who asks.

// Open files, closed whatever happens.
struct Descriptors {
  std::array<int, 2> fd{-1, -1};
  Descriptors() = default;
  ~Descriptors() {
    for (const int one : fd)
      if (one >= 0) ::close(one);
  }
  Descriptors(const Descriptors&) = delete;
  Descriptors& operator=(const Descriptors&) = delete;
};

AlteredCatalogue altered(const std::filesystem::path& database, const Message& wrong) {
  return {database.string(), {wrong, messages::kUseCopyNobodyHasAltered}};
}

}  // namespace

ConfinedWork ReadersApart::confined() {
  return serve;
}

ReadersApart::ReadersApart(std::shared_ptr<ConfinedMaker> maker, std::uint8_t kind, int least_seconds)
    : maker_(std::move(maker)), kind_(kind), least_seconds_(least_seconds) {}
ReadersApart::~ReadersApart() {
  if (in_use() == this) use(nullptr);
}
ReadersApart* ReadersApart::in_use() {
  return used;
}
void ReadersApart::use(ReadersApart* readers) {
  used = readers;
}

namespace {

// `beside`: of a journal or -wal, -1 for none.
void ask(Confined& reader, Asked asked, const std::filesystem::path& database, int file, int beside,
         int least_seconds, const ApartListener& listener) {
  const std::uint64_t bytes = bytes_of(file) + (beside >= 0 ? bytes_of(beside) : 0);
  const int seconds = static_cast<int>(static_cast<unsigned>(least_seconds) +
                                       std::min<std::uint64_t>(bytes / 200'000, 1'000'000));
  std::optional<ApartError> error;
  try {
    Line& line = reader.line;
    line.allow_seconds(seconds);
    line.put_value(asked);
    line.put_text(database.string());
    line.put_value<std::uint8_t>(beside >= 0);
    const std::array<int, 2> files{file, beside};
    reader.hand_over(std::span(files).first(beside >= 0 ? 2 : 1));
    // Text may be kept in UTF-16, which is up to a half shorter; a row has a head of its own.
    error = listen(line, 3 * bytes + 1'000'000, listener);
  } catch (const LineTooSlow&) {
    throw altered(database,
                  Message(messages::kReadingTakesLongerThanS, {{"seconds", std::to_string(seconds)}}));
  } catch (const LineBroken&) {
    throw altered(database, messages::kBytesStoppedReader);
  }
  if (!error) return;
  if (error->altered) throw AlteredCatalogue(database.string(), {bare(error->words)});
  throw Error(error->kind, database.string(), error->words);
}

}  // namespace

LedgerApart ReadersApart::ledger(const std::filesystem::path& database, bool audit,
                                 int busy_timeout_ms) const {
  const SharedLock lock(database, busy_timeout_ms);
  Descriptors journal;
  if (!lock.beside_a_writer()) journal.fd[0] = open_plain(database.string() + "-journal");
  LedgerApart read;
  const auto reader = maker_->make(kind_);
  ask(*reader, audit ? Asked::audit : Asked::entries, database, lock.descriptor(), journal.fd[0],
      least_seconds_,
      {[&](StoredEntry stored) { read.entries.push_back(std::move(stored)); },
       [&](ToldOf of, std::string words) {
         switch (of) {
           case ToldOf::database:
             return read.database.push_back(std::move(words));
           case ToldOf::ledger:
             return read.ledger.push_back(std::move(words));
           case ToldOf::projections:
             return read.projections.push_back(std::move(words));
           case ToldOf::device:
             read.device = std::move(words);
             return;
           case ToldOf::cache:
             throw LineBroken("a ledger is no cache");
         }
       }});
  return read;
}

std::vector<PhotoId> ReadersApart::damaged_in_cache(const std::filesystem::path& database,
                                                    bool beside_a_writer) const {
  Descriptors files;
  files.fd[0] = open_plain(database);
  if (files.fd[0] < 0) return {};
  if (beside_a_writer) files.fd[1] = open_plain(database.string() + "-wal");
  std::vector<PhotoId> photos;
  const auto reader = maker_->make(kind_);
  ask(*reader, Asked::cache, database, files.fd[0], files.fd[1], least_seconds_,
      {[](StoredEntry) { throw LineBroken("a cache has no rows"); },
       [&](ToldOf, const std::string& words) { photos.emplace_back(words); }});
  return photos;
}

}  // namespace evet
