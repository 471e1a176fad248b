#include "tools/intake/sheet_header.h"

#include <algorithm>
#include <set>

#include "tools/intake/messages.h"
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
      problems.push_back(
          {header.line,
           {},
           {Message(messages::kColumnWithoutName, {{"number", i + 1}}), messages::kNameItOrTakeItOut},
           true});
    } else if (std::find(known.begin(), known.end(), name) == known.end()) {
      const std::optional<std::string> meant = near_miss(name, known);
      if (meant) meant_by[*meant] = header.fields[i];
      problems.push_back({header.line,
                          {},
                          {Message(messages::kColumnNotKnown, {{"column", in_quotes(header.fields[i])}}),
                           meant ? Message(messages::kDidYouMean, {{"meant", *meant}})
                                 : Message(messages::kColumnsAre, {{"columns", joined(known, ", ")}})}});
    } else if (!columns.emplace(name, i).second) {
      problems.push_back({header.line, name, {messages::kColumnTwice, messages::kKeepOneOfTwo}, true});
    }
  }
  for (const std::string& name : kNeeded) {
    if (columns.contains(name)) continue;
    const auto meant = meant_by.find(name);
    const Message right =
        meant == meant_by.end()
            ? Message(messages::kAddColumn)
            : Message(messages::kRenameColumn, {{"column", in_quotes(meant->second)}, {"name", name}});
    problems.push_back({header.line, name, {messages::kColumnMissing, right}, true});
  }
  return columns;
}

}  // namespace evet
