#include "tools/report/fill_head.h"

#include <algorithm>
#include <map>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/hash_tree.h"
#include "matcher/base/moment.h"
#include "matcher/base/version.h"
#include "matcher/catalogue/calibration.h"
#include "matcher/catalogue/objection.h"
#include "matcher/catalogue/photo_work.h"
#include "matcher/catalogue/search_catalogue.h"
#include "tools/report/messages.h"
#include "tools/words/coarse_place.h"
#include "tools/words/costs_words.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/picture_questions.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// The sheets in force that speak of the night there, and their rows that were left out.
void tell_of_sheets(Catalogue& catalogue, const Identities& who, NightReport& report) {
  std::set<std::string> sheets;
  LedgerQuery nights_only;
  nights_only.kind = NightIntake::kKind;
  for (const ListedEntry& listed : catalogue.ledger(nights_only)) {
    if (!who.in_force(listed.entry.id)) continue;
    const NightIntake night = std::get<NightIntake>(body_of(listed.entry));
    if (std::find(night.nights.begin(), night.nights.end(), report.night) == night.nights.end()) continue;
    if (!night.visits.empty() &&
        std::find(night.visits.begin(), night.visits.end(),
                  NightIntake::Visit{report.site, report.pond, report.night}) == night.visits.end())
      continue;
    sheets.insert(night.sheet);
    for (size_t i = 0; i < night.refused.size(); ++i) {
      const bool has_line = i < night.refused_lines.size();
      const Message line(messages::kAtLine,
                         {{"line", has_line ? static_cast<size_t>(night.refused_lines[i]) : size_t{0}}});
      report.refused_rows.push_back({has_line ? line.words() : std::string(), night.refused[i]});
    }
  }
  for (const std::string& sheet : sheets) report.sheet += (report.sheet.empty() ? "" : ", ") + sheet;
}

// What somebody wrote for the public, and the cell of the coarse grid in which the place lies.
std::string published_place(const NightFacts& facts, const std::vector<const CaptureState*>& captures) {
  std::set<std::string> cells;
  if (facts.latitude && facts.longitude)
    cells.insert(in_words(coarse_place(*facts.latitude, *facts.longitude)));
  if (cells.empty())
    for (const CaptureState* capture : captures)
      if (capture->facts.latitude && capture->facts.longitude)
        cells.insert(in_words(coarse_place(*capture->facts.latitude, *capture->facts.longitude)));
  std::vector<std::string> words(cells.begin(), cells.end());
  if (!facts.place.empty()) words.insert(words.begin(), facts.place);
  return joined(words, "; ");
}

// The sheets that brought this place and night.
std::set<EntryId> sheets_of(Catalogue& catalogue, const NightIntake::Visit& visit) {
  std::set<EntryId> out;
  for (const auto& intake : catalogue.statements().intakes) {
    const auto& visits = intake.what.visits;
    if (std::find(visits.begin(), visits.end(), visit) != visits.end()) out.insert(intake.stamp.id);
  }
  return out;
}

// What spoke against something about the night's sheets and captures, and was recorded all the same.
void tell_overrides(Catalogue& catalogue, const std::vector<const CaptureState*>& captures,
                    NightReport& report) {
  std::map<CaptureId, std::string> names;
  for (const CaptureState* capture : captures) {
    names[capture->id] = capture->facts.name;
    for (const CaptureId& twin : capture->twins) names[twin] = capture->facts.name;
  }
  const std::set<EntryId> sheets = sheets_of(catalogue, {report.site, report.pond, report.night});
  for (const Overruled& one : overruled(catalogue)) {
    const auto at = names.find(one.capture);
    const bool of_sheet = one.capture.empty() && sheets.contains(one.entry);
    if (at == names.end() && !of_sheet) continue;
    report.overrides.push_back(
        {of_sheet ? "" : at->second, one.sentence, one.reason, one.by, one.on, one.stands});
  }
}

// As `evet audit` prints it and takes it back: how many entries, and the root of the tree over them (RFC 6962).
std::string tree_root_of(const std::vector<ListedEntry>& ledger) {
  std::vector<Digest> leaves;
  for (const ListedEntry& listed : ledger) leaves.push_back(leaf_hash(listed.entry.hash));
  return std::to_string(leaves.size()) + ":" + hex(root_of(leaves));
}

}  // namespace

void fill_head(Catalogue& catalogue, const Identities& who, const std::vector<const CaptureState*>& captures,
               Env& env, NightReport& report) {
  report.catalogue = catalogue.title();
  std::set<std::string> observers, licences;
  for (const CaptureState* capture : captures) {
    if (!capture->facts.observer.empty()) observers.insert(capture->facts.observer);
    if (!capture->facts.licence.empty()) licences.insert(capture->facts.licence);
    report.photos_on_sheet += static_cast<int>(capture->photos.size());
  }
  report.observers.assign(observers.begin(), observers.end());
  report.licences.assign(licences.begin(), licences.end());
  report.captures_on_sheet = static_cast<int>(captures.size());
  tell_of_sheets(catalogue, who, report);
  tell_overrides(catalogue, captures, report);
  report.facts = night_facts_of(catalogue, {report.site, report.pond, report.night});
  report.place = published_place(report.facts, captures);
  const Names names(who);
  for (const CaptureState* capture : captures)
    for (std::string& question : picture_questions(*capture, names))
      report.picture_questions.push_back(std::move(question));
  const std::vector<ListedEntry> ledger = catalogue.ledger();
  if (!ledger.empty()) report.ledger_head = ledger.back().entry.hash;  // of the same moment as the root
  report.ledger_entries = static_cast<int>(ledger.size());
  report.made_at = to_text(env.now());
  report.program = kProgram;
  report.how = {{in_words(messages::kTreeRootOfLedger), tree_root_of(ledger)},
                {in_words(messages::kPhotosExaminedBy), maker_of({})}};
  const CalibrationInForce own = calibration_in_force(catalogue);
  const SearchOptions search = search_options_of(catalogue);
  report.how.emplace_back(in_words(messages::kHowCosts), in_words(costs_of(search)));
  report.how.emplace_back(
      in_words(messages::kHowCalibration),
      own.calibration
          ? in_words(messages::kCalibrationOwn,
                     {{"date", own.calibration_by.time.substr(0, 10)},
                      {"individuals", counted(own.calibration->individuals, messages::kIndividuals)}})
      : own.of_other_weights ? in_words(messages::kCalibrationOfOtherWeights)
                             : in_words(messages::kCalibrationAsShipped));
}

}  // namespace evet
