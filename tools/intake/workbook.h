// A spreadsheet program's own file as the records of its first table: .xlsx (ECMA-376, Office Open XML, part 1,
// SpreadsheetML) and .ods (OASIS OpenDocument 1.3, part 3).
//
// Values alone: no formula is worked out (what the program had worked out last is in the file), nothing is
// fetched, no macro is read. Dates become ISO 8601, numbers their shortest text. The file may have been made to
// harm: what is packed is bounded before it is unpacked.
#pragma once
#include <cstddef>
#include <string_view>
#include <variant>
#include <vector>

#include "matcher/base/csv.h"
#include "tools/intake/sheet.h"

namespace evet {

struct WorkbookLimits {
  std::size_t max_bytes = 64U << 20;       // of the file
  std::size_t max_part_bytes = 32U << 20;  // of a part of it, unpacked
  std::size_t max_rows = 200'000;
  std::size_t max_columns = 500;
};

bool is_workbook(std::string_view file);  // by its first bytes: a ZIP archive

// Rows without anything in them are left out; the others are of one width, and their line is their row.
std::variant<std::vector<CsvRecord>, SheetProblem> read_workbook(std::string_view file,
                                                                 const WorkbookLimits& limits);

}  // namespace evet
