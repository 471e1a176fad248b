// One line of a night sheet: its cells read and judged, every problem named rather than the first alone.
#pragma once
#include <chrono>
#include <variant>
#include <vector>

#include "matcher/base/csv.h"
#include "tools/intake/sheet.h"
#include "tools/intake/sheet_header.h"

namespace evet {

// A photo's row, a row that says that nothing was caught, or (std::monostate) neither: then `problems` grew.
std::variant<std::monostate, SheetRow, NoCatch> read_row(const SheetColumns& columns, const CsvRecord& record,
                                                         std::chrono::year_month_day today,
                                                         std::vector<SheetProblem>& problems);

}  // namespace evet
