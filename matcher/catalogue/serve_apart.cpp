#include "matcher/catalogue/serve_apart.h"

#include <functional>
#include <vector>

#include "matcher/base/error.h"
#include "matcher/catalogue/altered.h"
#include "matcher/catalogue/apart_wire.h"
#include "matcher/catalogue/cache_rows.h"
#include "matcher/catalogue/handed_files.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/salvage.h"
#include "matcher/catalogue/serve_cache.h"
#include "matcher/catalogue/shared_lock.h"
#include "matcher/catalogue/store.h"
#include "matcher/photo/confined.h"
#include "matcher/photo/sandbox.h"

namespace evet {
namespace {

constexpr std::size_t kLongestPath = 10'000;

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
  step(tell, ToldOf::device_file, [&] { return std::vector{bare(store.here("device_file").value_or(""))}; });
  tell.finding(ToldOf::state, Store::state_of(name));
  if (asked == Asked::entries) return tell_rows(store, tell);
  step(tell, ToldOf::database, [&] { return store.integrity(); });
  step(tell, ToldOf::database, [&] { return store.schema_changes(); });
  step(tell, ToldOf::ledger, [&] {
    tell_rows(store, tell);
    return std::vector<Message>();
  });
  step(tell, ToldOf::projections, [&] { return store.stale_projections(); });
}

void read_broken(const std::filesystem::path& name, ApartTeller& tell) {
  const Salvaged salvaged = salvage(name);
  for (const StoredEntry& stored : salvaged.entries) tell.row(stored);
  tell.finding(ToldOf::unread, std::to_string(salvaged.unread));
}

// A short name that needs no care within SQLite's own.
constexpr const char* kCacheName = "/patterns";

void read_cache(bool with_wal, ApartTeller& tell) {
  const auto database = cache_where_handed(kCacheName, with_wal);
  if (!database) return;
  for (const PhotoId& photo : damaged_rows(*database)) tell.finding(ToldOf::cache, photo.value);
}

struct Request {
  Asked asked;
  std::filesystem::path name;
  Beside beside;
  std::vector<int> files;
  explicit Request(Line& line)
      : asked(static_cast<Asked>(line.get_value<std::uint8_t>())),
        name(line.get_text(kLongestPath)),
        beside(static_cast<Beside>(line.get_value<std::uint8_t>())),
        files(take_files(alone() ? 1 : 2)) {
    if (of_cache()) name = kCacheName;
  }
  bool alone() const { return beside == Beside::nothing; }
  bool of_cache() const { return asked == Asked::cache || asked == Asked::cache_rows; }
  std::uint64_t bytes() const { return bytes_of(files[0]) + (alone() ? 0 : bytes_of(files[1])); }
  // SQLite's own, the longest values, what is played back, and of a broken one all rows at once.
  std::uint64_t memory() const { return 500'000'000 + (asked == Asked::salvage ? 6 : 3) * bytes(); }
  // What is played back, is so in memory.
  void hand() const {
    if (asked == Asked::salvage || (!alone() && !of_cache()))
      hand_file(name, read_whole(files[0], name));
    else
      hand_file(name, files[0]);
    if (!alone()) hand_file(name.string() + tail_of(beside), read_whole(files[1], name));
  }
};

void answer(const Request& request, Line& line, ApartTeller& tell) {
  const bool beside = !request.alone();
  switch (request.asked) {
    case Asked::cache:
      return read_cache(beside, tell);
    case Asked::cache_rows:
      return serve_cache(line, kCacheName, beside);
    case Asked::salvage:
      return read_broken(request.name, tell);
    case Asked::entries:
    case Asked::audit:
      return read_ledger(request.asked, request.name, beside, tell);
  }
}

}  // namespace

void serve_apart(Line& line) {
  const Request request(line);
  hand_to_sqlite();
  confine({.memory_bytes = request.memory()});
  ApartTeller tell(line);
  try {
    request.hand();
    answer(request, line, tell);
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

}  // namespace evet
