#include <map>

#include "tools/intake/intake_outcome.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// Photos have names of their own, so a fault that all of them share is told with the first few.
constexpr size_t kPhotosApart = 4;
bool of_a_photo(const RefusedRow& row) {
  return row.item.starts_with("photo ");
}

// "lines 2 to 301" where no other row lies between, else "lines 2, 5 and 7", else "lines 2, 5 and 31 more".
std::string lines_of(const std::vector<const RefusedRow*>& rows) {
  bool running = true;
  for (size_t i = 1; i < rows.size(); ++i) running = running && rows[i]->line == rows[i - 1]->line + 1;
  if (running && rows.size() > 2)
    return "lines " + std::to_string(rows.front()->line) + " to " + std::to_string(rows.back()->line);
  constexpr size_t kNamed = 5;
  std::vector<std::string> named;
  for (const RefusedRow* row : rows)
    if (named.size() < kNamed) named.push_back(std::to_string(row->line));
  if (rows.size() > kNamed) named.back() = std::to_string(rows.size() - kNamed + 1) + " more";
  return "lines " + listed(named);
}

std::string sentence_of(const std::vector<const RefusedRow*>& rows) {
  if (!of_a_photo(*rows.front())) {
    const std::string& item = rows.front()->item;
    return lines_of(rows) + (item.empty() ? "" : ", " + item) + ": " + rows.front()->fault + " (" +
           counted(rows.size(), "row") + ")";
  }
  const std::vector<std::string> named{rows[0]->item.substr(6), rows[1]->item.substr(6),
                                       std::to_string(rows.size() - 2) + " more"};
  return lines_of(rows) + ", " + counted(rows.size(), "photo") + ": " + rows.front()->fault + " (" +
         listed(named) + ")";
}

}  // namespace

std::vector<std::string> told_together(const std::vector<RefusedRow>& refused) {
  std::map<std::pair<std::string, std::string>, std::vector<const RefusedRow*>> alike;
  const auto key = [](const RefusedRow& row) {
    return std::pair(of_a_photo(row) ? std::string("photo ") : row.item, row.fault);
  };
  for (const RefusedRow& row : refused)
    if (!row.fault.empty()) alike[key(row)].push_back(&row);
  std::vector<std::string> out;
  for (const RefusedRow& row : refused) {
    const auto at = alike.find(key(row));
    const bool alone = at == alike.end() || at->second.size() < (of_a_photo(row) ? kPhotosApart : 2);
    if (alone)
      out.push_back(row.sentence);
    else if (at->second.front() == &row)
      out.push_back(sentence_of(at->second));
  }
  return out;
}

}  // namespace evet
