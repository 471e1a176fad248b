#include "tools/intake/sheet_text.h"

#include <algorithm>

#include "matcher/base/utf8.h"

namespace evet {
namespace {

std::optional<SheetProblem> wrong_encoding(std::string_view file) {
  SheetProblem problem{
      .line = 1, .column = {}, .wrong = {}, .right = "save the sheet as 'CSV UTF-8'", .whole_sheet = true};
  if (file.starts_with("\xFF\xFE") || file.starts_with("\xFE\xFF")) {
    problem.wrong = "the sheet is saved as UTF-16";
    return problem;
  }
  if (file.starts_with("\xD0\xCF\x11\xE0")) {  // OLE, before 2007
    problem.wrong = "this is an old spreadsheet program's own file";
    problem.right = "save the sheet as .xlsx, .ods or 'CSV UTF-8'";
    return problem;
  }
  const std::optional<std::size_t> bad = first_not_utf8(file);
  if (!bad) {
    if (file.find('\0') == std::string_view::npos) return std::nullopt;
    problem.wrong = "the file holds zero bytes, so it is not a CSV sheet";
    problem.right = "save the night sheet from the spreadsheet program as CSV";
    return problem;
  }
  const std::string_view before = file.substr(0, *bad);
  problem.line += static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
  problem.wrong = "the text is not UTF-8 (it looks like Latin-1 or Windows-1252)";
  problem.right = "save the sheet again as 'CSV UTF-8', or convert it: iconv -f WINDOWS-1252 -t UTF-8";
  return problem;
}

char find_separator(std::string_view file) {
  const std::string_view header = file.substr(0, file.find_first_of("\r\n"));
  std::size_t commas = 0, semicolons = 0, tabs = 0;
  bool in_quotes = false;
  for (const char c : header) {
    if (c == '"') in_quotes = !in_quotes;
    if (in_quotes) continue;
    commas += c == ',';
    semicolons += c == ';';
    tabs += c == '\t';
  }
  if (tabs > commas + semicolons) return '\t';
  return semicolons > commas ? ';' : ',';
}

}  // namespace

std::variant<SheetText, SheetProblem> sheet_text(std::string_view file, std::size_t max_bytes) {
  if (file.size() > max_bytes)
    return SheetProblem{.line = 1,
                        .column = {},
                        .wrong = "the sheet is larger than " + std::to_string(max_bytes >> 20) + " MB",
                        .right = "is it the sheet at all? A night sheet is a small CSV file",
                        .whole_sheet = true};
  if (auto problem = wrong_encoding(file)) return std::move(*problem);
  if (file.starts_with("\xEF\xBB\xBF")) file.remove_prefix(3);
  return SheetText{file, find_separator(file)};
}

}  // namespace evet
