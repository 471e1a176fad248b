#include "tools/intake/sheet.h"

#include <algorithm>

namespace evet {

std::string SheetProblem::sentence() const {
  std::string text = "line " + std::to_string(line);
  if (!column.empty()) text += ", " + column;
  text += ": " + wrong;
  if (!right.empty()) text += "; " + right;
  return text;
}

bool Sheet::readable() const {
  return std::none_of(problems.begin(), problems.end(), [](const SheetProblem& p) { return p.whole_sheet; });
}

const std::vector<std::string>& sheet_columns() {
  static const std::vector<std::string> names{"photo",     "site",       "pond",     "night",   "trap",
                                              "capture",   "sex",        "stage",    "svl_mm",  "total_mm",
                                              "mass_g",    "released",   "observer", "licence", "latitude",
                                              "longitude", "individual", "notes"};
  return names;
}

}  // namespace evet
