#include "tools/intake/intake_plan.h"

#include <algorithm>
#include <set>
#include <unordered_map>

#include "matcher/base/place.h"
#include "tools/words/text.h"

namespace evet {
namespace {

std::string described(const CaptureFacts& facts) {
  return "capture " + evet::quoted(facts.name) + " of " + facts.night + " at " +
         place_of(facts.site, facts.pond);
}

CaptureFacts facts_of(const Sheet& sheet, const SheetCapture& capture) {
  const SheetRow& row = capture.facts;
  CaptureFacts facts;
  facts.site = row.site, facts.pond = row.pond, facts.night = row.night, facts.trap = row.trap;
  facts.name = row.capture.empty() ? row.photo : row.capture;
  facts.sex = row.sex, facts.stage = row.stage;
  facts.svl_mm = row.svl_mm, facts.total_mm = row.total_mm, facts.mass_g = row.mass_g;
  facts.observer = row.observer, facts.licence = row.licence;
  facts.latitude = row.latitude, facts.longitude = row.longitude;
  facts.lost = row.released == false;
  facts.individual = row.individual;
  std::set<std::string> said;
  for (const size_t i : capture.rows) {
    const std::string& note = sheet.rows[i].notes;
    if (note.empty() || !said.insert(note).second) continue;
    facts.notes += facts.notes.empty() ? note : "; " + note;
  }
  return facts;
}

bool same_occasion(const CaptureFacts& a, const CaptureFacts& b) {
  return a.night == b.night && a.site == b.site && a.pond == b.pond;
}

// Sorts rows into known, new and refused, capture by capture.
class Planner {
 public:
  Planner(Catalogue& catalogue, const Sheet& sheet, const std::vector<ReadPhoto>& reads, bool move,
          IntakePlan& out)
      : catalogue_(catalogue),
        who_(catalogue.identities()),
        sheet_(sheet),
        move_(move),
        reads_(reads),
        out_(out) {}

  std::optional<PlannedCapture> plan(const SheetCapture& capture) {
    PlannedCapture planned;
    planned.facts = facts_of(sheet_, capture);
    planned.says_released = capture.facts.released.has_value();
    bool any = false;
    for (const size_t row : capture.rows) any = take(row, capture, planned) || any;
    if (!any) return std::nullopt;
    if (planned.known) {
      ++out_.captures_known;
      if (!same_occasion(planned.known->facts, planned.facts)) moving_.insert(planned.known->id);
    }
    return planned;
  }

  // Whether the catalogue, too, knows of no catch there and then. Asked after all captures.
  bool plan(const NoCatch& none) {
    const auto caught =
        std::count_if(who_.captures.begin(), who_.captures.end(), [&](const CaptureState& state) {
          const CaptureFacts& facts = state.facts;
          return !moving_.contains(state.id) && facts.night == none.night && facts.site == none.site &&
                 facts.pond == none.pond && (none.trap.empty() || facts.trap == none.trap);
        });
    if (caught == 0) return true;
    out_.refused.push_back({none.line,
                            "line " + std::to_string(none.line) +
                                ", photo: says that nothing was caught on " + none.night + " at " +
                                place_of(none.site, none.pond) + ", but the catalogue holds " +
                                counted(static_cast<size_t>(caught), "capture") +
                                " of that night there; take the row out, or mend its night or place",
                            {},
                            {}});
    return false;
  }

 private:
  void refuse(size_t row, const std::string& sentence) {
    const std::string before = at_line(sheet_.rows[row]) + ": ";
    if (sentence.starts_with(before))
      out_.refused.push_back({sheet_.rows[row].line, sentence,
                              "photo " + evet::quoted(sheet_.rows[row].photo),
                              sentence.substr(before.size())});
    else
      out_.refused.push_back({sheet_.rows[row].line, sentence, {}, {}});
  }

  // Whether the row counts; then its photo is known or among the fresh ones.
  bool take(size_t row, const SheetCapture& capture, PlannedCapture& planned) {
    const SheetRow& said = sheet_.rows[row];
    const ReadPhoto& read = reads_[row];
    if (!read.refusal.empty()) {
      refuse(row, read.refusal);
      return false;
    }
    const auto [first, is_first] = row_of_.try_emplace(read.id, row);
    if (!is_first) {
      const SheetRow& other = sheet_.rows[first->second];
      const std::string same = at_line(said) + ": the same picture, byte for byte, as " +
                               evet::quoted(other.photo) + " on line " + std::to_string(other.line);
      if (!said.capture.empty() && said.capture == other.capture && said.night == other.night &&
          said.site == other.site) {
        out_.noticed.push_back(same + "; it is taken in once");
        return true;
      }
      refuse(row, same + ", which is another capture; a picture shows one animal once: leave one row out");
      return false;
    }
    for (const CaptureId& id : catalogue_.captures_with_photo(read.id)) {
      const CaptureState* state = who_.capture(id);
      if (state == nullptr) continue;
      if (!move_ && !same_occasion(state->facts, planned.facts)) {
        refuse(row, at_line(said) + ": the same picture is in the catalogue already, in " +
                        described(state->facts) +
                        "; leave the row out, mend its night and place, or say --move if the sheet is right");
        return false;
      }
      if (!one_hand(row, capture, planned, *state)) return false;
      planned.known = *state;
      notice_other_name(said, read.id, *state);
      ++out_.photos_known;
      return true;
    }
    planned.fresh.push_back({row, read.id});
    return true;
  }

  // One capture of the sheet, one of the catalogue: corrections and moves would else meet half of each.
  bool one_hand(size_t row, const SheetCapture& capture, const PlannedCapture& planned,
                const CaptureState& state) {
    const std::string there =
        at_line(sheet_.rows[row]) + ": the picture is in the catalogue already, in " + described(state.facts);
    if (planned.known && planned.known->id != state.id) {
      refuse(row, there + ", but the sheet puts it with photos of " + described(planned.known->facts) +
                      "; make it a capture of its own, and if both are one animal, tell evet verdict");
      return false;
    }
    const auto [on_sheet, is_first] = on_sheet_.try_emplace(state.id, &capture);
    if (is_first || on_sheet->second == &capture) return true;
    refuse(row, there + ", but the sheet makes two captures of that, here and on line " +
                    std::to_string(sheet_.rows[on_sheet->second->rows.front()].line) +
                    "; give the rows the same capture");
    return false;
  }

  void notice_other_name(const SheetRow& said, const PhotoId& id, const CaptureState& state) {
    for (const PhotoState& photo : state.photos)
      if (photo.photo == id && photo.name != said.photo)
        out_.noticed.push_back(at_line(said) + ": the same picture, byte for byte, as " +
                               evet::quoted(photo.name) + ", which is in the catalogue already, in " +
                               described(state.facts) + "; it is not added again");
  }

  Catalogue& catalogue_;
  const Identities who_;  // a copy: it must outlive other calls on the catalogue
  const Sheet& sheet_;
  const bool move_;
  const std::vector<ReadPhoto>& reads_;
  IntakePlan& out_;
  std::unordered_map<PhotoId, size_t> row_of_;
  std::unordered_map<CaptureId, const SheetCapture*> on_sheet_;  // the known ones, and what names them
  std::set<CaptureId> moving_;
};

}  // namespace

IntakePlan plan_night(Catalogue& catalogue, const Sheet& sheet, const std::vector<ReadPhoto>& reads,
                      bool move) {
  IntakePlan plan;
  for (const SheetProblem& problem : sheet.problems)
    plan.refused.push_back({problem.line, problem.sentence(), problem.column,
                            problem.wrong + (problem.right.empty() ? "" : "; " + problem.right)});
  Planner planner(catalogue, sheet, reads, move, plan);
  for (const SheetCapture& capture : sheet.captures)
    if (auto planned = planner.plan(capture)) plan.captures.push_back(std::move(*planned));
  for (const NoCatch& none : sheet.no_catches)
    if (planner.plan(none)) plan.no_catches.push_back(none);
  std::stable_sort(plan.refused.begin(), plan.refused.end(),
                   [](const RefusedRow& a, const RefusedRow& b) { return a.line < b.line; });
  std::set<size_t> lines;
  for (const SheetRow& row : sheet.rows) lines.insert(row.line);
  for (const NoCatch& none : sheet.no_catches) lines.insert(none.line);
  for (const RefusedRow& row : plan.refused) lines.insert(row.line);
  plan.rows = lines.size();
  return plan;
}

}  // namespace evet
