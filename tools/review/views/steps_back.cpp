#include <algorithm>
#include <map>
#include <optional>
#include <vector>

#include "tools/review/capture_words.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/words/in_words.h"

namespace evet::review {
namespace {

constexpr std::int64_t kLookBack = 5000;  // entries of the ledger, so that a long one costs no more

bool was_turned(const Examination& examination) {
  return std::any_of(examination.notes.begin(), examination.notes.end(),
                     [](const QualityNote& note) { return note.measure == "turned"; });
}

std::string sentence_of(const Body& body, const Identities& who) {
  const auto named = [&](const CaptureId& id) {
    const CaptureState* capture = who.capture(id);
    return capture == nullptr ? in_words(messages::kACapture) : display_name(capture->facts);
  };
  if (const auto* verdict = std::get_if<Verdict>(&body)) {
    const std::string answer = answer_in_words(verdict->answer);
    if (verdict->other.empty())
      return in_words(messages::kStepAnswered, {{"capture", named(verdict->capture)}, {"answer", answer}});
    return in_words(
        messages::kStepAnsweredOfTwo,
        {{"capture", named(verdict->capture)}, {"other", named(verdict->other)}, {"answer", answer}});
  }
  if (const auto* closing = std::get_if<Closing>(&body))
    return in_words(messages::kStepClosed,
                    {{"capture", named(closing->capture)}, {"as", words(closing->as)}});
  if (const auto* reading = std::get_if<Reading>(&body))
    return in_words(reading->usable ? messages::kStepUsable : messages::kStepNotUsable,
                    {{"capture", named(reading->capture)}});
  if (const auto* again = std::get_if<Reexamined>(&body))
    return in_words(was_turned(again->examination)       ? messages::kStepTurned
                    : again->examination.midline.empty() ? messages::kStepSetAside
                                                         : messages::kStepMidline);
  return in_words(messages::kStepOther);
}

}  // namespace

// The reader's acts as two stacks, replayed from the ledger: what stands can be undone, newest first; what
// was undone last can be redone until something new is said.
nlohmann::json steps_back(Catalogue& catalogue, const std::string& reader) {
  nlohmann::json out = {{"undo", nullptr}, {"redo", nullptr}};
  if (!is_reader_code(reader)) return out;
  const std::vector<ListedEntry> mine = catalogue.ledger(
      {.actor = reader, .after_position = std::max<std::int64_t>(0, newest_position(catalogue) - kLookBack)});
  struct Act {
    EntryId act, withdrawn_by;
    Body body;
  };
  std::vector<Act> done, undone;
  for (const ListedEntry& one : mine) {
    if (one.entry.actor.kind != ActorKind::person) continue;
    const bool act = one.entry.kind == Verdict::kKind || one.entry.kind == Closing::kKind ||
                     one.entry.kind == Reading::kKind || one.entry.kind == Reexamined::kKind;
    if (act) {
      done.push_back({one.entry.id, {}, body_of(one.entry)});
      undone.clear();
    } else if (one.entry.kind == Withdrawal::kKind) {
      const auto withdrawal = std::get<Withdrawal>(body_of(one.entry));
      const auto in_done =
          std::find_if(done.begin(), done.end(), [&](const Act& a) { return a.act == withdrawal.target; });
      const auto in_undone = std::find_if(undone.begin(), undone.end(),
                                          [&](const Act& a) { return a.withdrawn_by == withdrawal.target; });
      if (in_done != done.end()) {
        undone.push_back({in_done->act, one.entry.id, in_done->body});
        done.erase(in_done);
      } else if (in_undone != undone.end()) {
        done.push_back({in_undone->act, {}, in_undone->body});
        undone.erase(in_undone);
      }
    }
  }
  const Identities& who = catalogue.identities();
  const auto capture_in = [](const Body& body) {
    if (const auto* verdict = std::get_if<Verdict>(&body)) return verdict->capture.value;
    if (const auto* reading = std::get_if<Reading>(&body)) return reading->capture.value;
    if (const auto* closing = std::get_if<Closing>(&body)) return closing->capture.value;
    return std::string();
  };
  const auto step = [&](const Act& act, const EntryId& target) {
    return nlohmann::json{{"target", target.value},
                          {"sentence", sentence_of(act.body, who)},
                          {"capture", capture_in(act.body)}};
  };
  if (!done.empty()) out["undo"] = step(done.back(), done.back().act);
  if (!undone.empty()) out["redo"] = step(undone.back(), undone.back().withdrawn_by);
  return out;
}

}  // namespace evet::review
