// Which entries of the ledger to list; empty fields do not restrict.
#pragma once
#include <cstdint>
#include <string>

#include "matcher/base/ids.h"

namespace evet {

struct LedgerQuery {
  std::string kind{};
  CaptureId capture{};  // that speak of this capture
  std::string actor{};
  std::string until{};               // a date: entries whose own date is not later
  std::int64_t after_position = 0;   // entries that arrived later than this one
  std::int64_t before_position = 0;  // and earlier than this one; 0: no bound
  std::int64_t limit = -1;           // -1: all
  bool newest_first = false;
};

}  // namespace evet
