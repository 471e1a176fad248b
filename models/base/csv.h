// CSV text to rows of cells and back, as RFC 4180 has it; the separator (comma or semicolon) is
// read off the header.
#pragma once
#include <istream>
#include <string>
#include <vector>

namespace evet::models {

struct CsvRow {
  int line = 0;  // line of the file on which the row starts, from 1
  std::vector<std::string> cells;
};

// Blank lines are left out; spaces around a cell are cut. Throws InputError for a quote that is never closed.
std::vector<CsvRow> read_csv(std::istream& input);
// A cell, quoted where RFC 4180 needs it, that a spreadsheet cannot take for a formula.
std::string csv_cell(const std::string& text);

}  // namespace evet::models
