// Which entries no longer count: those withdrawn, and those that an adjudication settled.
#pragma once
#include <string>
#include <unordered_set>
#include <vector>

#include "matcher/catalogue/statements.h"

namespace evet {

// Withdrawals and adjudications, themselves undone or not, worked out from the newest back. An entry can only
// be taken out by one with a greater id, which every device that knew it gives; the program cannot take out
// what a person said.
class Retractions {
 public:
  explicit Retractions(const Statements& statements);
  bool retracts(const EntryId& id) const { return retracted_.contains(id); }
  std::vector<EntryId> all() const;  // sorted

 private:
  std::unordered_set<EntryId> retracted_;
};

}  // namespace evet
