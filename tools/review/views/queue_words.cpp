#include "tools/review/views/queue_words.h"

#include <algorithm>

#include "tools/review/capture_words.h"
#include "tools/words/look_reasons.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

std::string called(const Identities& who, const IndividualId& id) {
  const Individual* individual = who.individual(id);
  return individual == nullptr ? std::string("an individual joined since") : individual->name;
}

}  // namespace

std::vector<std::string> why(const RankedNight& night, const RankedCapture& ranked,
                             const CaptureState& capture, const Identities& who) {
  const PeopleSaid& people = night.people.at(ranked.capture);
  std::vector<std::string> out;
  const auto& c = ranked.candidates;
  if (capture.disputed && !people.disputed) out.push_back("readers contradict each other");  // since
  if (ranked.advice != Advice::look) {
    out.push_back(ranked.advice == Advice::same ? "the program is sure: " + called(who, c.front().individual)
                  : c.empty()                   ? "nobody to compare it with: new"
                                                : "the program is sure: new");
  }
  const LookNames names{[&](const IndividualId& id) { return called(who, id); },
                        [&](const CaptureId& id) {
                          const CaptureState* other = who.capture(id);
                          return other == nullptr ? std::string("another capture")
                                                  : display_name(other->facts);
                        }};
  // What it is would tell the sheet before the pattern has been judged: it is said when somebody answers.
  if (night.held.contains(ranked.capture)) {
    const bool same = !c.empty() && c.front().probability > ranked.new_probability;
    out.push_back(
        (same ? "by the pattern " + called(who, c.front().individual) + ", " + percent(c.front().probability)
              : "by the pattern new, " + percent(ranked.new_probability)) +
        "; but something speaks against it, which is said when you answer");
  } else {
    for (const Message& reason : look_reasons(ranked, people, night.search, names))
      out.push_back(reason.words());
  }
  for (const Message& said : ruled_out_words(people, names)) out.push_back(said.words());
  if (capture.facts.stage == "metamorph") out.push_back("the pattern of a metamorph still forms");
  const auto unusable = std::count_if(capture.photos.begin(), capture.photos.end(),
                                      [](const PhotoState& photo) { return !photo.usable; });
  if (unusable > 0) out.push_back(counted(static_cast<std::size_t>(unusable), "photo") + " not usable");
  return out;
}

std::string settled_by(const CaptureState& capture, const std::map<CaptureId, std::string>& readers) {
  if (capture.by_program) return "the program";
  const auto at = readers.find(capture.id);
  return at == readers.end() ? "the sheet" : at->second;
}

}  // namespace evet::review
