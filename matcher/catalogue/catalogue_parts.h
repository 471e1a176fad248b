// The inside of a Catalogue, shared by the files that make it up: catalogue, merge, audit.
#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "matcher/base/version.h"
#include "matcher/catalogue/cache.h"
#include "matcher/catalogue/guarded_files.h"
#include "matcher/catalogue/incremental_fold.h"
#include "matcher/catalogue/photo_store.h"
#include "matcher/catalogue/read_apart.h"
#include "matcher/catalogue/store.h"

namespace evet {

inline constexpr const char* kDatabaseName = "catalogue.sqlite";

// Where the next entry goes.
struct Chain {
  DeviceId device;
  Merge::Head head;     // seq 0 and an empty hash before the first entry
  std::string last_id;  // the greatest in the ledger, of any device
};

// For an audit, what was found where the database was read.
struct FoundApart {
  LedgerApart ledger;
  std::vector<PhotoId> cache;  // as Cache::damaged()
};

struct CatalogueParts {
  std::filesystem::path folder;
  Env* env;
  bool writable;
  std::unique_ptr<PlayedBack> copy;  // what is read in its place when a stopped program left it half written
  Store store;
  std::optional<FoundApart>
      apart;  // where an audit is to see it; `store` is in memory then, and holds what could be read
  PhotoStore photos;
  Cache cache;

  std::int64_t read_to = 0;  // position up to which `statements` is filled
  Statements statements;
  IncrementalFold identities;  // of `statements`

  CatalogueParts(const std::filesystem::path& at, Env& machine, bool write, int busy_timeout_ms,
                 std::unique_ptr<PlayedBack> played_back);
  CatalogueParts(const std::filesystem::path& at, Env& machine, Store in_memory,
                 std::optional<FoundApart> found);
  void complete();
  void refresh();
  Chain chain(const Actor& actor);
  Entry add(Chain& chain, const Actor& actor, const Body& body);
  std::set<std::pair<std::string, std::string>> keys_seen;  // readers and keys that need no more telling
  void tell_of_key(const Entry& entry, const std::string& key);
};

}  // namespace evet
