#include "tools/words/text_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "matcher/base/printable.h"

namespace evet {
namespace {

// Characters, near enough: UTF-8 sequences, each one column wide.
size_t width_of(const std::string& text) {
  return static_cast<size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

}  // namespace

TextTable::TextTable(std::vector<std::string> headings) {
  for (std::string& heading : headings) {
    right_.push_back(heading.starts_with('>'));
    if (right_.back()) heading.erase(0, 1);
  }
  rows_.push_back(std::move(headings));
}

void TextTable::row(std::vector<std::string> cells) {
  for (std::string& cell : cells) cell = printable(cell);
  cells.resize(right_.size());
  rows_.push_back(std::move(cells));
}

void TextTable::print(std::ostream& out, bool colour) const {
  std::vector<size_t> width(right_.size());
  for (const auto& row : rows_)
    for (size_t c = 0; c < row.size(); ++c) width[c] = std::max(width[c], width_of(row[c]));
  for (size_t r = 0; r < rows_.size(); ++r) {
    std::string line;
    for (size_t c = 0; c < right_.size(); ++c) {
      const std::string blanks(width[c] - width_of(rows_[r][c]), ' ');
      if (c > 0) line += "  ";
      line += right_[c] ? blanks + rows_[r][c] : rows_[r][c] + blanks;
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out << (colour && r == 0 ? "\x1b[1m" + line + "\x1b[0m" : line) << "\n";
  }
}

std::string probability_text(double p) {
  if (p > 0 && p < 0.01) return "<0.01";
  if (p < 1 && p > 0.99) return ">0.99";
  return fmt::format("{:.2f}", p);
}

}  // namespace evet
