// A night sheet's bytes become its rows. Every wrong row is reported with its line and what would be right;
// nothing is guessed. Reads no file and no clock.
#pragma once
#include <chrono>
#include <string_view>

#include "tools/intake/sheet.h"

namespace evet {

struct SheetOptions {
  std::chrono::year_month_day today;  // nights after this date have not happened yet
  std::size_t max_bytes = 64u << 20;
  std::size_t max_rows = 200'000;
};

// Never throws for what a file may hold: whatever is wrong becomes a problem.
Sheet read_sheet(std::string_view file, const SheetOptions& options);

}  // namespace evet
