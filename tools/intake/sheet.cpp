#include "tools/intake/sheet.h"

#include <algorithm>

#include "tools/intake/messages.h"
#include "tools/intake/night_columns.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {

std::string SheetProblem::sentence() const {
  Message where(messages::kAtLine, {{"line", line}});
  if (!photo.empty())
    where = at_photo(line, photo);
  else if (!column.empty())
    where = Message(messages::kAtColumn, {{"line", line}, {"column", column}});
  return where.words() + ": " + reason.words();
}

std::string SheetProblem::without_line() const {
  if (!photo.empty())
    return Message(messages::kOfPhoto, {{"photo", in_quotes(photo)}}).words() + ": " + reason.words();
  return column.empty() ? reason.words() : column + ": " + reason.words();
}

Message at_photo(std::size_t line, const std::string& photo) {
  return {messages::kAtPhoto, {{"line", line}, {"photo", in_quotes(photo)}}};
}

bool Sheet::readable() const {
  return std::none_of(problems.begin(), problems.end(), [](const SheetProblem& p) { return p.whole_sheet; });
}

const std::vector<std::string>& sheet_columns() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> out{"photo",    "site",    "pond",     "night",     "trap",       "capture",
                                 "sex",      "stage",   "svl_mm",   "total_mm",  "mass_g",     "released",
                                 "observer", "licence", "latitude", "longitude", "individual", "notes"};
    out.insert(out.end(), night_columns().begin(), night_columns().end());
    return out;
  }();
  return names;
}

}  // namespace evet
