// What a night sheet must be as a whole before any of its rows is read: text in UTF-8, columns parted by ','
// or
// ';', and a header that names them.
#pragma once
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tools/intake/sheet.h"
#include "tools/words/csv.h"

namespace evet {

// Column name -> place in a record.
using SheetColumns = std::map<std::string, std::size_t>;

bool needed_column(const std::string& name);

// Why these bytes are no sheet in UTF-8, or nothing.
std::optional<SheetProblem> wrong_encoding(std::string_view file);

// ',' or ';', whichever the header uses more, outside quotes; 0 when the columns are parted by tabs.
char find_separator(std::string_view file);

// Unknown, doubled and missing columns become problems.
SheetColumns read_header(const CsvRecord& header, std::vector<SheetProblem>& problems);

}  // namespace evet
