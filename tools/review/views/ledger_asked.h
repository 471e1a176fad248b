// Which entries of the ledger somebody wants to see: filters of the ledger page and of its export.
#pragma once
#include <string>
#include <vector>

#include "tools/review/desk.h"

namespace evet::review {

struct LedgerAsked {
  std::string as_of;  // a date: as it stood at its end
  std::string kind, actor;
  std::string day;  // entries of this date alone
  CaptureId capture;
  IndividualId individual;  // any of its captures
  std::int64_t before = 0;  // positions; 0: from the newest
};

// ?as_of=, ?kind=, ?actor=, ?day=, ?capture=, ?individual=, ?before=. Errors: bad_input naming the field.
LedgerAsked ledger_asked(const Call& call);

// Newest first, at most so many; below 0: all.
std::vector<ListedEntry> entries_asked(Catalogue& catalogue, const LedgerAsked& asked, std::int64_t at_most);

}  // namespace evet::review
