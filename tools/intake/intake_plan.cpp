#include "tools/intake/intake_plan.h"

#include <algorithm>
#include <set>
#include <unordered_map>

#include "matcher/base/place.h"
#include "tools/intake/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

Message described(const CaptureFacts& facts) {
  return {
      messages::kCaptureOf,
      {{"name", in_quotes(facts.name)}, {"night", facts.night}, {"place", place_of(facts.site, facts.pond)}}};
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
    const Message wrong(messages::kNoCatchButCatalogue, {{"n", static_cast<size_t>(caught)},
                                                         {"night", none.night},
                                                         {"place", place_of(none.site, none.pond)}});
    out_.refused.push_back({none.line, "photo", {wrong, messages::kTakeRowOut}});
    return false;
  }

 private:
  void refuse(size_t row, const Reason& reason) {
    const SheetRow& said = sheet_.rows[row];
    out_.refused.push_back({said.line, "photo", reason, false, said.photo});
  }
  void notice(const SheetRow& row, const Reason& what) {
    out_.noticed.emplace_back(
        messages::kPlacedNotice,
        std::vector<Message::Argument>{{"where", at_photo(row.line, row.photo)}, {"what", what.words()}});
  }

  // Whether the row counts; then its photo is known or among the fresh ones.
  bool take(size_t row, const SheetCapture& capture, PlannedCapture& planned) {
    const SheetRow& said = sheet_.rows[row];
    const ReadPhoto& read = reads_[row];
    if (read.refusal) {
      refuse(row, *read.refusal);
      return false;
    }
    const auto [first, is_first] = row_of_.try_emplace(read.id, row);
    if (!is_first) {
      const SheetRow& other = sheet_.rows[first->second];
      const std::vector<Message::Argument> which{{"photo", in_quotes(other.photo)}, {"line", other.line}};
      if (!said.capture.empty() && said.capture == other.capture && said.night == other.night &&
          said.site == other.site) {
        notice(said, {Message(messages::kSamePictureAsLine, which), messages::kTakenInOnce});
        return true;
      }
      refuse(row, {Message(messages::kSamePictureOtherCapture, which), messages::kOneAnimalOnce});
      return false;
    }
    for (const CaptureId& id : catalogue_.captures_with_photo(read.id)) {
      const CaptureState* state = who_.capture(id);
      if (state == nullptr) continue;
      if (!move_ && !same_occasion(state->facts, planned.facts)) {
        refuse(row, {Message(messages::kPictureAtOtherNight, {{"capture", described(state->facts)}}),
                     messages::kLeaveOutMendOrMove});
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
    const Message there = described(state.facts);
    if (planned.known && planned.known->id != state.id) {
      refuse(row, {Message(messages::kPictureOfOtherCapture,
                           {{"capture", there}, {"other", described(planned.known->facts)}}),
                   messages::kMakeOwnCapture});
      return false;
    }
    const auto [on_sheet, is_first] = on_sheet_.try_emplace(state.id, &capture);
    if (is_first || on_sheet->second == &capture) return true;
    refuse(row, {Message(messages::kTwoCapturesOfOne,
                         {{"capture", there}, {"line", sheet_.rows[on_sheet->second->rows.front()].line}}),
                 messages::kGiveSameCapture});
    return false;
  }

  void notice_other_name(const SheetRow& said, const PhotoId& id, const CaptureState& state) {
    for (const PhotoState& photo : state.photos)
      if (photo.photo == id && photo.name != said.photo)
        notice(said, {Message(messages::kSamePictureOtherName,
                              {{"photo", in_quotes(photo.name)}, {"capture", described(state.facts)}}),
                      messages::kNotAddedAgain});
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
  plan.refused = sheet.problems;
  Planner planner(catalogue, sheet, reads, move, plan);
  for (const SheetCapture& capture : sheet.captures)
    if (auto planned = planner.plan(capture)) plan.captures.push_back(std::move(*planned));
  for (const NoCatch& none : sheet.no_catches)
    if (planner.plan(none)) plan.no_catches.push_back(none);
  std::stable_sort(plan.refused.begin(), plan.refused.end(),
                   [](const SheetProblem& a, const SheetProblem& b) { return a.line < b.line; });
  std::set<size_t> lines;
  for (const SheetRow& row : sheet.rows) lines.insert(row.line);
  for (const NoCatch& none : sheet.no_catches) lines.insert(none.line);
  for (const SheetProblem& row : plan.refused) lines.insert(row.line);
  plan.rows = lines.size();
  return plan;
}

}  // namespace evet
