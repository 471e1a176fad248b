#include "tools/words/look_reasons.h"

#include <algorithm>

#include "matcher/search/posterior.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

std::string called(const SaidOfPair& said, const LookNames& names) {
  return said.individual.empty() ? names.capture(said.other) : names.individual(said.individual);
}
Message by(const SaidOfPair& said) {
  return {messages::kByOn, {{"reader", said.by}, {"date", said.on}}};
}

// Why it was left to people, however sure the program is.
void tell_people(const RankedCapture& ranked, const PeopleSaid& people, const LookNames& names,
                 std::vector<Message>& out) {
  if (people.disputed) out.push_back(messages::kReadersContradict);
  for (const SaidOfPair& said : people.cannot_tell)
    out.push_back({messages::kCouldNotBeTold, {{"other", called(said, names)}, {"by", by(said)}}});
  for (const SaidOfPair& said : people.rivals)
    out.push_back({messages::kLooksLikeAsWell,
                   {{"capture", names.capture(said.other)},
                    {"individual", names.individual(ranked.candidates.front().individual)},
                    {"by", by(said)}}});
}

}  // namespace

std::vector<Message> ruled_out_words(const PeopleSaid& people, const LookNames& names) {
  std::vector<Message> out;
  for (const SaidOfPair& said : people.different)
    out.push_back({messages::kSaidToBeDifferent, {{"other", called(said, names)}, {"by", by(said)}}});
  return out;
}

std::vector<Message> look_reasons(const RankedCapture& ranked, const PeopleSaid& people,
                                  const SearchOptions& costs, const LookNames& names) {
  std::vector<Message> out;
  const std::vector<Candidate>& c = ranked.candidates;
  if (ranked.advice == Advice::look) {
    tell_people(ranked, people, names, out);
    const bool sure = !out.empty();
    const double match = ranked.night_matches.empty() ? 0 : ranked.night_matches[0].probability;
    if (c.size() > 1 && c[1].probability > 0.2 * c[0].probability &&
        c[0].probability > 0.5 * ranked.new_probability)
      out.push_back({messages::kTwoClose,
                     {{"first", names.individual(c[0].individual)},
                      {"p_first", percent(c[0].probability)},
                      {"second", names.individual(c[1].individual)},
                      {"p_second", percent(c[1].probability)}}});
    else if (!c.empty() && c[0].probability >= ranked.new_probability)
      out.push_back({sure ? messages::kLikely : messages::kLikelyButOnly,
                     {{"individual", names.individual(c[0].individual)}, {"p", percent(c[0].probability)}}});
    else if (match < std::max(kLeastMatchSaid, 1 - ranked.new_probability))
      out.push_back({messages::kPerhapsNew, {{"p", percent(ranked.new_probability)}}});
    // Its answer takes away its own risk; what is left of the gain is others'.
    const double own = std::min(cost_of_joining(c.empty() ? 0 : c[0].probability, costs),
                                cost_of_calling_new(ranked.new_probability));
    if (match == 0 && ranked.gain > own + 0.2 * costs.look_over_missed)
      out.push_back(messages::kHelpsWithOthers);
  }
  for (const NightMatch& match : ranked.night_matches)
    if (match.probability >= kLeastMatchSaid)
      out.push_back({messages::kMayBeOneNewAnimal,
                     {{"capture", names.capture(match.capture)}, {"p", percent(match.probability)}}});
  return out;
}

std::vector<std::string> in_words(const std::vector<Message>& reasons) {
  std::vector<std::string> words;
  words.reserve(reasons.size());
  for (const Message& one : reasons) words.push_back(one.words());
  return words;
}

}  // namespace evet
