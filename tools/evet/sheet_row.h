// One line of a night sheet: its cells read and judged, every problem named rather than the first alone.
#pragma once
#include <chrono>
#include <variant>
#include <vector>

#include "tools/evet/csv.h"
#include "tools/evet/sheet.h"
#include "tools/evet/sheet_header.h"

namespace evet {

// A photo's row, a row that says that nothing was caught, or (std::monostate) neither: then `problems` grew.
std::variant<std::monostate, SheetRow, NoCatch> read_row(const SheetColumns& columns, const CsvRecord& record,
                                                         std::chrono::year_month_day today,
                                                         std::vector<SheetProblem>& problems);

}  // namespace evet
