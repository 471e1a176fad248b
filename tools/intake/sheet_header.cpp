#include "tools/intake/sheet_header.h"

#include <algorithm>
#include <set>

#include "tools/words/text.h"

namespace evet {
namespace {

const std::set<std::string> kNeeded{"photo", "site", "night", "licence"};

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

}  // namespace

bool needed_column(const std::string& name) {
  return kNeeded.contains(name);
}

std::optional<SheetProblem> wrong_encoding(std::string_view file) {
  SheetProblem problem{
      .line = 1, .column = {}, .wrong = {}, .right = "save the sheet as 'CSV UTF-8'", .whole_sheet = true};
  if (file.starts_with("\xFF\xFE") || file.starts_with("\xFE\xFF")) {
    problem.wrong = "the sheet is saved as UTF-16";
    return problem;
  }
  if (file.starts_with("PK\x03\x04") || file.starts_with("\xD0\xCF\x11\xE0")) {  // zip; OLE, before 2007
    problem.wrong = "this is a spreadsheet program's own file, not CSV";
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
  if (tabs > commas + semicolons) return 0;
  return semicolons > commas ? ';' : ',';
}

SheetColumns read_header(const CsvRecord& header, std::vector<SheetProblem>& problems) {
  SheetColumns columns;
  std::map<std::string, std::string> meant_by;  // the column that an unknown name was probably meant to be
  for (std::size_t i = 0; i < header.fields.size(); ++i) {
    const std::string name = lower_ascii(header.fields[i]);
    const auto& known = sheet_columns();
    if (name.empty()) {
      problems.push_back({header.line,
                          {},
                          "column " + std::to_string(i + 1) + " has no name",
                          "name it, or take it out",
                          true});
    } else if (std::find(known.begin(), known.end(), name) == known.end()) {
      const std::optional<std::string> meant = near_miss(name, known);
      if (meant) meant_by[*meant] = header.fields[i];
      problems.push_back({header.line,
                          {},
                          "column " + quoted(header.fields[i]) + " is not known",
                          meant
                              ? "did you mean " + *meant + "?"
                              : "take it out, or put what it says into notes; columns are " + joined(known)});
    } else if (!columns.emplace(name, i).second) {
      problems.push_back({header.line, name, "this column is there twice", "keep one of the two", true});
    }
  }
  for (const std::string& name : kNeeded) {
    if (columns.contains(name)) continue;
    const auto meant = meant_by.find(name);
    problems.push_back({header.line, name, "this column is missing",
                        meant != meant_by.end() ? "rename column " + quoted(meant->second) + " to " + name
                                                : "add it; every sheet needs photo, site, night and licence",
                        true});
  }
  return columns;
}

}  // namespace evet
