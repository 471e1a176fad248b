// A draft held to the rules of every night sheet, cell by cell: the same rules that `evet intake` goes by, asked
// of the same functions.
#pragma once
#include <string>
#include <vector>

#include "tools/intake/draft_sheet.h"

namespace evet {

struct CellFault {
  std::string capture;  // key; empty: what was written, or is missing, for the whole evening
  std::string photo;    // name, where it is one photo's
  std::string column;   // empty when it is not one column's
  std::string sentence;
};

struct DraftCheck {
  std::vector<CellFault> faults;         // in the order of the sheet; each told once
  std::vector<CellFault> asks;           // what is taken in only with a reason
  std::vector<std::string> noticed;      // sentences: nothing that stands in the way
  std::size_t captures = 0, photos = 0;  // on the sheet
  std::size_t photos_known = 0;          // that the catalogue has already
};

DraftCheck check_draft(const Draft& draft, const Proposed& proposed, Catalogue& catalogue, Env& env);

}  // namespace evet
