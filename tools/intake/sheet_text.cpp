#include "tools/intake/sheet_text.h"

#include <algorithm>

#include "matcher/base/utf8.h"
#include "tools/intake/messages.h"

namespace evet {
namespace {

SheetProblem spoiled(std::size_t line, const Message& wrong, const Message& right) {
  return {line, {}, {wrong, right}, true};
}

std::optional<SheetProblem> wrong_encoding(std::string_view file) {
  if (file.starts_with("\xFF\xFE") || file.starts_with("\xFE\xFF"))
    return spoiled(1, messages::kSheetIsUtf16, messages::kSaveAsCsvUtf8);
  if (file.starts_with("\xD0\xCF\x11\xE0"))  // OLE, before 2007
    return spoiled(1, messages::kOldSpreadsheet, messages::kSaveAsSheet);
  const std::optional<std::size_t> bad = first_not_utf8(file);
  if (!bad) {
    if (file.find('\0') == std::string_view::npos) return std::nullopt;
    return spoiled(1, messages::kSheetHoldsZeros, messages::kSaveSheetAsCsv);
  }
  const std::string_view before = file.substr(0, *bad);
  const auto line = 1 + static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
  return spoiled(line, messages::kSheetIsNotUtf8, messages::kSaveAgainAsUtf8);
}

char find_separator(std::string_view file) {
  const std::string_view header = file.substr(0, file.find_first_of("\r\n"));
  std::size_t commas = 0, semicolons = 0, tabs = 0;
  bool within_quotes = false;
  for (const char c : header) {
    if (c == '"') within_quotes = !within_quotes;
    if (within_quotes) continue;
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
    return spoiled(1, Message(messages::kSheetTooLarge, {{"megabytes", max_bytes >> 20}}),
                   messages::kIsItTheSheet);
  if (auto problem = wrong_encoding(file)) return std::move(*problem);
  if (file.starts_with("\xEF\xBB\xBF")) file.remove_prefix(3);
  return SheetText{file, find_separator(file)};
}

}  // namespace evet
