#include "tools/intake/sheet_captures.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "tools/intake/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// Fills a fact that is blank so far; false when the two rows say different things.
template <class Value>
bool agree(Value& fact, const Value& said, const Value& blank) {
  if (said == blank) return true;
  if (fact == blank) fact = said;
  return fact == said;
}

// The first column on which a row disagrees with what its capture's other rows say, or nullptr.
const char* disagreement(SheetRow& facts, const SheetRow& row) {
  const std::string none;
  const std::optional<double> no_number;
  if (!agree(facts.night, row.night, none)) return "night";
  if (!agree(facts.site, row.site, none)) return "site";
  if (!agree(facts.pond, row.pond, none)) return "pond";
  if (!agree(facts.trap, row.trap, none)) return "trap";
  if (!agree(facts.sex, row.sex, Sex::unknown)) return "sex";
  if (!agree(facts.stage, row.stage, none)) return "stage";
  if (!agree(facts.released, row.released, std::optional<bool>())) return "released";
  if (!agree(facts.svl_mm, row.svl_mm, no_number)) return "svl_mm";
  if (!agree(facts.total_mm, row.total_mm, no_number)) return "total_mm";
  if (!agree(facts.mass_g, row.mass_g, no_number)) return "mass_g";
  if (!agree(facts.observer, row.observer, none)) return "observer";
  if (!agree(facts.licence, row.licence, none)) return "licence";
  if (!agree(facts.latitude, row.latitude, no_number)) return "latitude";
  if (!agree(facts.longitude, row.longitude, no_number)) return "longitude";
  if (!agree(facts.individual, row.individual, none)) return "individual";
  return nullptr;
}

}  // namespace

// Gathers rows into captures. Labels often begin again at 1 every night and at every site, so a label holds
// within those; but in neighbouring rows the same label is the same animal, and another night is a slip that
// would make it a recapture.
void gather_captures(Sheet& sheet) {
  std::map<std::tuple<std::string, std::string, std::string>, std::size_t> by_label;  // night, site, label
  std::vector<SheetCapture> captures;
  std::vector<std::size_t> capture_of;  // of each row so far
  std::set<std::size_t> mixed;
  for (std::size_t i = 0; i < sheet.rows.size(); ++i) {
    const SheetRow& row = sheet.rows[i];
    const bool goes_on = i > 0 && sheet.rows[i - 1].capture == row.capture;
    const SheetRow& key = goes_on ? captures[capture_of.back()].facts : row;
    const auto [found, fresh] =
        row.capture.empty() ? std::pair(by_label.end(), true)
                            : by_label.try_emplace({key.night, key.site, row.capture}, captures.size());
    capture_of.push_back(fresh ? captures.size() : found->second);
    if (fresh) {
      captures.push_back({row, {i}});
      continue;
    }
    SheetCapture& capture = captures[found->second];
    const std::size_t first_line = capture.facts.line;
    capture.rows.push_back(i);
    if (const char* column = disagreement(capture.facts, row)) {
      mixed.insert(found->second);
      sheet.problems.push_back(
          {row.line,
           column,
           {Message(messages::kFactsDiffer, {{"line", first_line}, {"capture", in_quotes(row.capture)}}),
            messages::kMendOrOwnLabel}});
    }
  }
  std::vector<bool> keep(sheet.rows.size(), true);
  for (const std::size_t c : mixed)
    for (const std::size_t row : captures[c].rows) keep[row] = false;
  std::vector<SheetRow> kept;
  std::vector<std::size_t> place(sheet.rows.size());
  for (std::size_t i = 0; i < sheet.rows.size(); ++i) {
    place[i] = kept.size();
    if (keep[i]) kept.push_back(std::move(sheet.rows[i]));
  }
  for (std::size_t c = 0; c < captures.size(); ++c) {
    if (mixed.contains(c)) continue;
    for (std::size_t& row : captures[c].rows) row = place[row];
    sheet.captures.push_back(std::move(captures[c]));
  }
  sheet.rows = std::move(kept);
}

void refuse_contradicted(Sheet& sheet) {
  std::erase_if(sheet.no_catches, [&](const NoCatch& none) {
    const auto caught = std::find_if(sheet.rows.begin(), sheet.rows.end(), [&](const SheetRow& row) {
      return row.night == none.night && row.site == none.site && row.pond == none.pond &&
             (none.trap.empty() || row.trap == none.trap);
    });
    if (caught == sheet.rows.end()) return false;
    const MessageText& wrong =
        none.trap.empty() ? messages::kNoCatchButPhotoAtPlace : messages::kNoCatchButPhotoAtTrap;
    sheet.problems.push_back(
        {none.line, "photo", {Message(wrong, {{"line", caught->line}}), messages::kTakeOneOut}});
    return true;
  });
}

}  // namespace evet
