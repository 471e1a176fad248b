// Records of a CSV file (RFC 4180) with the line on which each begins; also with ';' between the fields,
// which spreadsheets write where the decimal sign is a comma.
//
// Line ends may be LF, CRLF or CR. A field in double quotes may hold separators, line ends and doubled
// quotes. Blanks around an unquoted field are dropped, as are lines that hold nothing. Encoding is the
// caller's matter.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "matcher/base/message.h"

namespace evet {

struct CsvRecord {
  std::size_t line = 0;  // on which the record begins, from 1
  std::vector<std::string> fields;
};

struct CsvProblem {
  std::size_t line = 0;
  Reason reason;
};

struct CsvReading {
  std::vector<CsvRecord> records;
  std::optional<CsvProblem> problem;  // a quote where none may stand, or one that is never closed
};

CsvReading read_csv(std::string_view text, char separator);

// One field as RFC 4180 wants it written, guarded against being taken for a formula by a spreadsheet: text
// that begins with = + - @ or a tab and is not a plain number gets a leading apostrophe.
std::string csv_field(std::string_view text);

}  // namespace evet
