// Does a ledger hold together? Entry by entry: is it as it was written (its hash), and does it follow from
// what its device wrote before (the chain)? Knows nothing of files; the audit and the merge feed it.
#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "matcher/base/error.h"
#include "matcher/catalogue/entry.h"
#include "matcher/catalogue/signature.h"
#include "matcher/catalogue/statements.h"

namespace evet {

// One thing that does not hold: "entry 019e…" and what is wrong with it.
struct Finding {
  std::string item;
  Reason reason;
  bool fork = false;  // several entries under one number: nothing was lost, and a merge takes them all
  std::string wrong() const { return reason.words(); }
};
Finding finding_of(const Error& error);

class LedgerCheck {
 public:
  void take(const Entry& entry);  // in any order
  // After the last entry: what its own fields, its chain and the merges say. Sorted by entry.
  std::vector<Finding> findings() const;

  // How many entries an entry's hash vouches for: itself, all earlier ones of its device, and through merges
  // what other devices had written. Nothing when no entry has this hash.
  std::optional<size_t> covered_by(const std::string& hash) const;
  std::optional<EntryId> entry_with(const std::string& hash) const;
  // Entries that are as they were written and that the fold sets aside all the same. They are no findings.
  const std::vector<SetAside>& set_aside() const { return set_aside_; }
  const KeyUses& keys() const { return keys_; }
  size_t entries() const { return nodes_.size(); }
  size_t devices() const { return chains_.size(); }

 private:
  struct Node {
    EntryId id;
    std::string prev;
    std::vector<std::pair<DeviceId, Merge::Head>> vouched;  // of a merge
  };
  void check_chain(const DeviceId& device, std::vector<Finding>& findings) const;

  std::vector<Finding> of_entries_;
  std::vector<SetAside> set_aside_;
  KeyUses keys_;
  std::unordered_map<std::string, Node> nodes_;  // by hash
  // Of each device: number -> hashes that claim it; more than one is a fork.
  std::map<DeviceId, std::map<std::int64_t, std::vector<std::string>>> chains_;
};

}  // namespace evet
