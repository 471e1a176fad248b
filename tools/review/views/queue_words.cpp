#include "tools/review/views/queue_words.h"

#include <algorithm>

#include "tools/report/messages.h"
#include "tools/review/capture_words.h"
#include "tools/review/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/look_reasons.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

std::string called(const Identities& who, const IndividualId& id) {
  const Individual* individual = who.individual(id);
  return individual == nullptr ? in_words(messages::kIndividualJoinedSince) : individual->name;
}

}  // namespace

std::vector<std::string> why(const RankedNight& night, const RankedCapture& ranked,
                             const CaptureState& capture, const Identities& who) {
  const PeopleSaid& people = night.people.at(ranked.capture);
  std::vector<std::string> out;
  const auto& c = ranked.candidates;
  if (capture.disputed && !people.disputed) out.push_back(in_words(messages::kReadersContradict));  // since
  if (ranked.advice != Advice::look) {
    if (ranked.advice == Advice::same)
      out.push_back(
          in_words(messages::kProgramIsSureOf, {{"individual", called(who, c.front().individual)}}));
    else
      out.push_back(in_words(c.empty() ? messages::kNobodyToCompareItWith : messages::kProgramIsSureNew));
  }
  const LookNames names{[&](const IndividualId& id) { return called(who, id); },
                        [&](const CaptureId& id) {
                          const CaptureState* other = who.capture(id);
                          return other == nullptr ? in_words(messages::kAnotherCapture)
                                                  : display_name(other->facts);
                        }};
  // What it is would tell the sheet before the pattern has been judged: it is said when somebody answers.
  if (night.held.contains(ranked.capture)) {
    const bool same = !c.empty() && c.front().probability > ranked.new_probability;
    const std::string individual = same ? called(who, c.front().individual) : std::string();
    out.push_back(in_words(
        same ? messages::kByThePatternOne : messages::kByThePatternNew,
        {{"individual", individual}, {"p", percent(same ? c.front().probability : ranked.new_probability)}}));
  } else {
    for (const Message& reason : look_reasons(ranked, people, night.search, names))
      out.push_back(reason.words());
  }
  for (const Message& said : ruled_out_words(people, names)) out.push_back(said.words());
  if (capture.facts.stage == "metamorph") out.push_back(in_words(messages::kMetamorphStillForms));
  const auto unusable = std::count_if(capture.photos.begin(), capture.photos.end(),
                                      [](const PhotoState& photo) { return !photo.usable; });
  if (unusable > 0) out.push_back(counted(unusable, messages::kPhotosNotUsable));
  return out;
}

std::string settled_by(const CaptureState& capture, const std::map<CaptureId, std::string>& readers) {
  if (capture.by_program) return in_words(messages::kTheProgram);
  const auto at = readers.find(capture.id);
  return at == readers.end() ? in_words(messages::kTheSheet) : at->second;
}

}  // namespace evet::review
