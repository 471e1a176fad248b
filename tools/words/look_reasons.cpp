#include "tools/words/look_reasons.h"

#include <algorithm>

#include "matcher/search/posterior.h"
#include "tools/words/text.h"

namespace evet {
namespace {

std::string called(const SaidOfPair& said, const LookNames& names) {
  return said.individual.empty() ? names.capture(said.other) : names.individual(said.individual);
}
std::string by(const SaidOfPair& said) {
  return said.by + " on " + said.on;
}

// Why it was left to people, however sure the program is.
void tell_people(const RankedCapture& ranked, const PeopleSaid& people, const LookNames& names,
                 std::vector<std::string>& out) {
  if (people.disputed) out.push_back("readers contradict each other");
  for (const SaidOfPair& said : people.cannot_tell)
    out.push_back("could not be told from " + called(said, names) + " by " + by(said));
  for (const SaidOfPair& said : people.rivals)
    out.push_back(names.capture(said.other) + " looks like " +
                  names.individual(ranked.candidates.front().individual) +
                  " as well, and is another animal by " + by(said));
}

}  // namespace

std::vector<std::string> ruled_out_words(const PeopleSaid& people, const LookNames& names) {
  std::vector<std::string> out;
  for (const SaidOfPair& said : people.different)
    out.push_back("not " + called(said, names) + ": said to be different by " + by(said));
  return out;
}

std::vector<std::string> look_reasons(const RankedCapture& ranked, const PeopleSaid& people,
                                      const SearchOptions& costs, const LookNames& names) {
  std::vector<std::string> out;
  const std::vector<Candidate>& c = ranked.candidates;
  if (ranked.advice == Advice::look) {
    tell_people(ranked, people, names, out);
    const bool sure = !out.empty();
    const double match = ranked.night_matches.empty() ? 0 : ranked.night_matches[0].probability;
    if (c.size() > 1 && c[1].probability > 0.2 * c[0].probability &&
        c[0].probability > 0.5 * ranked.new_probability)
      out.push_back("two candidates close: " + names.individual(c[0].individual) + " " +
                    percent(c[0].probability) + ", " + names.individual(c[1].individual) + " " +
                    percent(c[1].probability));
    else if (!c.empty() && c[0].probability >= ranked.new_probability)
      out.push_back("likely " + names.individual(c[0].individual) + (sure ? ": " : ", but only ") +
                    percent(c[0].probability));
    else if (match < std::max(kLeastMatchSaid, 1 - ranked.new_probability))
      out.push_back("perhaps new: " + percent(ranked.new_probability));
    // Its answer takes away its own risk; what is left of the gain is others'.
    const double own = std::min(cost_of_joining(c.empty() ? 0 : c[0].probability, costs),
                                cost_of_calling_new(ranked.new_probability));
    if (match == 0 && ranked.gain > own + 0.2 * costs.look_over_missed)
      out.push_back("the answer also helps with other captures of the night");
  }
  for (const NightMatch& match : ranked.night_matches)
    if (match.probability >= kLeastMatchSaid)
      out.push_back("may be one new animal with " + names.capture(match.capture) + " of this night: " +
                    percent(match.probability) + "; settle one, and the other is compared with it");
  return out;
}

}  // namespace evet
