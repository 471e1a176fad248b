// The header of a night sheet, which names its columns.
#pragma once
#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "matcher/base/csv.h"
#include "tools/intake/sheet.h"

namespace evet {

// Column name -> place in a record.
using SheetColumns = std::map<std::string, std::size_t>;

bool needed_column(const std::string& name);

// Unknown, doubled and missing columns become problems.
SheetColumns read_header(const CsvRecord& header, std::vector<SheetProblem>& problems);

}  // namespace evet
