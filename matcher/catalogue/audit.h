// Does what the catalogue holds stand up? Nothing is changed; everything is read.
//
// A chain of hashes proves nothing against whoever owns the whole folder: they could write it anew. What
// proves something is a head hash that left the house, on a report or an export: `against` shows that
// everything it vouched for is still there, unchanged.
#pragma once
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "matcher/catalogue/ledger_check.h"

namespace evet {

// A head that somebody has seen, and kept.
struct Witnessed {
  std::string hash;
  std::string root{};  // entries and tree root of that moment, "412:9f86…"; empty where it was not kept
};

struct AuditOptions {
  std::string against{};               // a head hash printed earlier, 64 hex digits; empty: none
  std::vector<Witnessed> witnessed{};  // more of them, kept by whoever looks: each is looked for
  // Entries and tree root printed earlier, "412:9f86…": does today's ledger begin with them, in their order?
  std::string grown_from{};
  bool photos = true;                                       // read every photo and check its bytes
  std::function<void(size_t done, size_t all)> progress{};  // photos; may be empty
  void check() const;                                       // throws Error{bad_input}
};

struct AuditAgainst {
  std::string hash;
  std::optional<EntryId> entry;         // absent: no entry of this ledger has that hash
  size_t covered = 0, added_since = 0;  // entries
};

struct AuditReport {
  size_t entries = 0, devices = 0, photos = 0;
  std::string head;                 // hash of the newest entry
  std::vector<Finding> findings;    // what does not hold; empty when all does
  std::vector<Finding> forks;       // chains that forked, all branches vouched for since: nothing is lost
  std::vector<SetAside> set_aside;  // entries that are as they were written, and say nothing
  std::vector<KeyUse> keys;         // what entries are signed with
  size_t unsigned_entries = 0;
  std::map<std::string, size_t> unsigned_since;  // of readers who sign: what came in their name without it
  std::string root;                              // of the tree over all entries (matcher/base/hash_tree.h)
  // That it begins with `grown_from`, else with the newest root of `witnessed`; empty where it does not.
  std::string proof_from;
  std::vector<std::string> proof;
  std::vector<PhotoId> never_here;  // came by a merge without a file: neither folder had it
  size_t stray_files = 0;           // in photos/ and of no entry: an intake that was cut short leaves such
  std::optional<AuditAgainst> against;
  std::vector<AuditAgainst> witnessed;  // in the order asked for
  bool holds() const { return findings.empty(); }
};

AuditReport audit(Catalogue& catalogue, const AuditOptions& options = {});

}  // namespace evet
