// Who disagrees in a dispute, and by which entries.
#pragma once
#include <set>
#include <string>

#include "matcher/catalogue/catalogue.h"

namespace evet::review {

const Said<Verdict>* find_verdict(const Statements& said, const EntryId& id);  // null when there is none

// Readers who took part in a dispute, and the entries an adjudication of it may settle.
struct Parties {
  std::set<std::string> readers;
  std::set<EntryId> entries;
};
Parties parties_of(const Dispute& dispute, const Statements& said);

}  // namespace evet::review
