#include "models/base/csv.h"

#include <charconv>
#include <iterator>

#include "models/base/input_error.h"
#include "models/base/messages.h"

namespace evet::models {
namespace {

std::string trimmed(const std::string& text) {
  const std::size_t from = text.find_first_not_of(" \t\r");
  if (from == std::string::npos) return {};
  return text.substr(from, text.find_last_not_of(" \t\r") - from + 1);
}

}  // namespace

std::vector<CsvRow> read_csv(std::istream& input) {
  std::string text{std::istreambuf_iterator<char>(input), {}};
  if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
  const std::string header = text.substr(0, text.find('\n'));
  const char separator =
      header.find(',') == std::string::npos && header.find(';') != std::string::npos ? ';' : ',';

  std::vector<CsvRow> rows;
  CsvRow row{1, {}};
  std::string cell;
  bool was_quoted = false;
  int line = 1;
  const auto end_cell = [&] {
    row.cells.push_back(was_quoted ? cell : trimmed(cell));
    cell.clear();
    was_quoted = false;
  };
  const auto end_row = [&] {
    end_cell();
    if (row.cells.size() > 1 || !row.cells[0].empty()) rows.push_back(row);
    row = {line, {}};
  };
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char sign = text[at];
    if (sign == '"' && trimmed(cell).empty() && !was_quoted) {
      was_quoted = true;
      cell.clear();
      const int opened = line;
      for (++at;; ++at) {
        if (at >= text.size())
          throw InputError("line " + std::to_string(opened), messages::kQuotedCellOpen,
                           messages::kCloseWithQuote);
        if (text[at] == '"' && at + 1 < text.size() && text[at + 1] == '"') {
          cell += '"';
          ++at;
        } else if (text[at] == '"') {
          break;
        } else {
          line += text[at] == '\n';
          cell += text[at];
        }
      }
    } else if (sign == separator) {
      end_cell();
    } else if (sign == '\n') {
      ++line;
      end_row();
    } else if (!was_quoted) {
      cell += sign;
    }
  }
  end_row();
  return rows;
}

std::string csv_cell(const std::string& text) {
  std::string safe = text;
  // A number below nought is no formula, and with an apostrophe before it no number to anybody who reads the table.
  double value = 0;
  const bool number =
      std::from_chars(text.data(), text.data() + text.size(), value).ptr == text.data() + text.size();
  if (!safe.empty() && !number && std::string("=+-@\t\r").find(safe[0]) != std::string::npos)
    safe.insert(0, "'");
  if (safe.find_first_of(",;\"\n\r") == std::string::npos) return safe;
  std::string quoted = "\"";
  for (const char sign : safe) quoted += sign == '"' ? "\"\"" : std::string(1, sign);
  return quoted + "\"";
}

}  // namespace evet::models
