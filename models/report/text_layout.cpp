#include "models/report/text_layout.h"

#include <algorithm>

namespace evet::models {

std::string wrapped(const std::string& text, std::size_t width, const std::string& first,
                    const std::string& later) {
  std::string out = first, word;
  std::size_t column = first.size();
  bool empty = true;
  const auto put = [&] {
    if (word.empty()) return;
    if (!empty && column + 1 + word.size() > width) {
      out += "\n" + later;
      column = later.size();
      empty = true;
    }
    if (!empty) {
      out += ' ';
      ++column;
    }
    out += word;
    column += word.size();
    empty = false;
    word.clear();
  };
  for (const char c : text) {
    if (c == ' ' || c == '\n')
      put();
    else
      word += c;
  }
  put();
  return out + "\n";
}

std::string columns(const std::vector<std::vector<std::string>>& rows, std::size_t left_columns) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows)
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (widths.size() <= c) widths.push_back(0);
      widths[c] = std::max(widths[c], row[c].size());
    }
  std::string out;
  for (const auto& row : rows) {
    std::string line = " ";
    for (std::size_t c = 0; c < row.size(); ++c) {
      const std::string pad(widths[c] - row[c].size(), ' ');
      line += " " + (c < left_columns ? row[c] + pad : pad + row[c]) + (c + 1 < row.size() ? " " : "");
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + "\n";
  }
  return out;
}

}  // namespace evet::models
