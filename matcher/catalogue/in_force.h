// Which entries still count: what was withdrawn, what an adjudication settled, what a reader has since
// revised.
#pragma once
#include <string>
#include <unordered_set>
#include <vector>

#include "matcher/catalogue/statements.h"

namespace evet {

// Withdrawals and adjudications, themselves undone or not, worked out from the newest back. An entry can only
// be taken out by one with a greater id, which every device that knew it gives; the program cannot take out
// what a person said.
class Force {
 public:
  explicit Force(const Statements& statements);
  bool out(const EntryId& id) const { return out_.contains(id); }
  std::vector<EntryId> all_out() const;  // sorted

 private:
  std::unordered_set<EntryId> out_;
};

}  // namespace evet
