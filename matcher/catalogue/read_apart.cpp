#include "matcher/catalogue/read_apart.h"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <charconv>

#include "matcher/base/error.h"
#include "matcher/catalogue/altered.h"
#include "matcher/catalogue/apart_wire.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/serve_apart.h"
#include "matcher/catalogue/shared_lock.h"

namespace evet {
namespace {

std::atomic<ReadersApart*> used{nullptr};

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
  return serve_apart;
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

// A database and what lies beside it, open.
struct Handed {
  std::filesystem::path database;  // in errors
  int file = -1, other = -1;
  Beside beside = Beside::nothing;

  std::uint64_t bytes() const { return bytes_of(file) + (other >= 0 ? bytes_of(other) : 0); }
  int seconds(int at_least) const {
    return static_cast<int>(static_cast<unsigned>(at_least) +
                            std::min<std::uint64_t>(bytes() / 200'000, 1'000'000));
  }
  void hand_to(Confined& reader, Asked asked) const {
    reader.line.put_value(asked);
    reader.line.put_text(database.string());
    reader.line.put_value(other >= 0 ? beside : Beside::nothing);
    const std::array<int, 2> files{file, other};
    reader.hand_over(std::span(files).first(other >= 0 ? 2 : 1));
  }
};

void ask(Confined& reader, Asked asked, const Handed& handed, int least_seconds,
         const ApartListener& listener) {
  const int seconds = handed.seconds(least_seconds);
  std::optional<ApartError> error;
  try {
    reader.line.allow_seconds(seconds);
    handed.hand_to(reader, asked);
    // Text may be kept in UTF-16, which is up to a half shorter; a row has a head of its own.
    error = listen(reader.line, 3 * handed.bytes() + 1'000'000, listener);
  } catch (const LineTooSlow&) {
    throw altered(handed.database,
                  Message(messages::kReadingTakesLongerThanS, {{"seconds", std::to_string(seconds)}}));
  } catch (const LineBroken&) {
    throw altered(handed.database, messages::kBytesStoppedReader);
  }
  if (!error) return;
  if (error->altered) throw AlteredCatalogue(handed.database.string(), {bare(error->words)});
  throw Error(error->kind, handed.database.string(), error->words);
}

}  // namespace

LedgerApart ReadersApart::ledger(const std::filesystem::path& database, bool audit,
                                 int busy_timeout_ms) const {
  const SharedLock lock(database, busy_timeout_ms);
  Descriptors journal;
  if (!lock.beside_a_writer()) journal.fd[0] = open_plain(database.string() + "-journal");
  LedgerApart read;
  const auto reader = maker_->make(kind_);
  ask(*reader, audit ? Asked::audit : Asked::entries,
      {database, lock.descriptor(), journal.fd[0], Beside::journal}, least_seconds_,
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
           case ToldOf::device_file:
             read.device_file = std::move(words);
             return;
           case ToldOf::state:
             read.state = std::move(words);
             return;
           case ToldOf::cache:
           case ToldOf::unread:
             throw LineBroken("not asked for");
         }
       }});
  return read;
}

Salvaged ReadersApart::salvaged(const std::filesystem::path& copy,
                                const std::filesystem::path& database) const {
  Descriptors files;
  files.fd[0] = open_plain(copy);
  Beside beside = Beside::wal;
  for (const Beside one : {Beside::journal, Beside::wal})
    if (files.fd[1] < 0) files.fd[1] = open_plain(copy.string() + tail_of(beside = one));
  Salvaged read;
  if (files.fd[0] < 0) return read;
  const auto reader = maker_->make(kind_);
  ask(*reader, Asked::salvage, {database, files.fd[0], files.fd[1], beside}, least_seconds_,
      {[&](StoredEntry stored) { read.entries.push_back(std::move(stored)); },
       [&](ToldOf of, const std::string& words) {
         std::size_t count = 0;
         const auto [end, error] = std::from_chars(words.data(), words.data() + words.size(), count);
         if (of != ToldOf::unread || error != std::errc() || end != words.data() + words.size())
           throw LineBroken("no count");
         read.unread = count;
       }});
  return read;
}

namespace {

// A cache, and the -wal of who writes to it.
Handed open_cache(Descriptors& files, const std::filesystem::path& database, bool beside_a_writer) {
  files.fd[0] = open_plain(database);
  if (beside_a_writer) files.fd[1] = open_plain(database.string() + "-wal");
  return {database, files.fd[0], files.fd[1], Beside::wal};
}

}  // namespace

std::vector<PhotoId> ReadersApart::damaged_in_cache(const std::filesystem::path& database,
                                                    bool beside_a_writer) const {
  Descriptors files;
  const Handed cache = open_cache(files, database, beside_a_writer);
  if (cache.file < 0) return {};
  std::vector<PhotoId> photos;
  const auto reader = maker_->make(kind_);
  ask(*reader, Asked::cache, cache, least_seconds_,
      {[](StoredEntry) { throw LineBroken("a cache has no rows"); },
       [&](ToldOf, const std::string& words) { photos.emplace_back(words); }});
  return photos;
}

std::unique_ptr<Confined> ReadersApart::with_cache(const std::filesystem::path& database,
                                                   bool beside_a_writer) const {
  Descriptors files;
  const Handed cache = open_cache(files, database, beside_a_writer);
  if (cache.file < 0) throw LineBroken("there is no cache");
  auto reader = maker_->make(kind_);
  reader->line.allow_seconds(cache.seconds(least_seconds_));
  cache.hand_to(*reader, Asked::cache_rows);
  return reader;
}

}  // namespace evet
