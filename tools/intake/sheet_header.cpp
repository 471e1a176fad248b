#include "tools/intake/sheet_header.h"

#include <algorithm>
#include <set>

#include "tools/words/text.h"

namespace evet {
namespace {

const std::set<std::string> kNeeded{"photo", "site", "night", "licence"};

}  // namespace

bool needed_column(const std::string& name) {
  return kNeeded.contains(name);
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
      problems.push_back(
          {header.line,
           {},
           "column " + quoted(header.fields[i]) + " is not known",
           meant ? "did you mean " + *meant + "?"
                 : "take it out, or put what it says into notes; columns are " + listed(known, ", ")});
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
