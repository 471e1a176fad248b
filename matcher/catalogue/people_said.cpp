#include "matcher/catalogue/people_said.h"

#include <algorithm>
#include <unordered_map>

#include "matcher/catalogue/opinions.h"

namespace evet {
namespace {

// The individual that the advice would join the capture to; empty: none.
IndividualId joined_to(const RankedCapture& ranked) {
  return ranked.advice == Advice::same ? ranked.candidates.front().individual : IndividualId();
}

// The captures of each pair that a person said to be different, or could not tell, and of which one is asked
// for; twins' ids too. Few of a ledger's verdicts are such, so that a page may ask at every request.
std::unordered_map<CaptureId, int> captures_in_question(const Statements& statements, const Identities& who,
                                                        const std::set<CaptureId>& of) {
  std::unordered_map<CaptureId, int> out;
  const auto add = [&](const CaptureState& capture) {
    const auto index = static_cast<int>(who.capture_at.at(capture.id));
    out[capture.id] = index;
    for (const CaptureId& twin : capture.twins) out[twin] = index;
  };
  for (const auto& said : statements.verdicts) {
    if (said.what.answer != Answer::different && said.what.answer != Answer::cannot_tell) continue;
    if (said.stamp.actor.kind != ActorKind::person) continue;
    const CaptureState *subject = who.capture(said.what.capture), *other = who.capture(said.what.other);
    if (subject == nullptr || other == nullptr || !(of.contains(subject->id) || of.contains(other->id)))
      continue;
    add(*subject), add(*other);
  }
  return out;
}

}  // namespace

bool PeopleSaid::has_ruled_out(const CaptureId& other) const {
  return std::any_of(different.begin(), different.end(),
                     [&](const SaidOfPair& said) { return said.other == other; });
}

std::set<IndividualId> PeopleSaid::ruled_out() const {
  std::set<IndividualId> out;
  for (const SaidOfPair& said : different)
    if (!said.individual.empty()) out.insert(said.individual);
  return out;
}

bool PeopleSaid::leaves_open(const IndividualId& joined_to) const {
  return disputed || std::any_of(cannot_tell.begin(), cannot_tell.end(), [&](const SaidOfPair& said) {
           return said.is_subject || (!joined_to.empty() && said.individual == joined_to);
         });
}

std::map<CaptureId, PeopleSaid> people_said(const Statements& statements, const Identities& who,
                                            const std::set<CaptureId>& of) {
  std::map<CaptureId, PeopleSaid> out;
  for (const CaptureId& id : of) out[id].disputed = who.capture(id)->disputed;

  const std::unordered_map<CaptureId, int> index_of = captures_in_question(statements, who, of);
  if (index_of.empty()) return out;
  Statements between_them;
  for (const auto& said : statements.verdicts)
    if (index_of.contains(said.what.capture) && index_of.contains(said.what.other))
      between_them.verdicts.push_back(said);
  const auto note = [&](const Opinion& opinion, int about, int beside) {
    const CaptureState& capture = who.captures[static_cast<size_t>(about)];
    const CaptureState& other = who.captures[static_cast<size_t>(beside)];
    const auto at = out.find(capture.id);
    if (at == out.end()) return;
    const Stamp& stamp = opinion.said->stamp;
    SaidOfPair said{other.id, other.individual.value_or(IndividualId()), about == opinion.subject,
                    stamp.actor.name, stamp.time.substr(0, 10)};
    (opinion.answer() == Answer::different ? at->second.different : at->second.cannot_tell)
        .push_back(std::move(said));
  };
  for (const Opinion& opinion : opinions(between_them, Retractions(statements), index_of).people) {
    if (opinion.answer() != Answer::different && opinion.answer() != Answer::cannot_tell) continue;
    note(opinion, opinion.subject, opinion.other);
    note(opinion, opinion.other, opinion.subject);
  }
  return out;
}

void bind_to(std::map<CaptureId, PeopleSaid>& said, std::vector<RankedCapture>& ranked) {
  std::map<CaptureId, IndividualId> joins;
  for (RankedCapture& one : ranked) {
    const PeopleSaid& people = said[one.capture];
    const IndividualId individual = joined_to(one);
    if (one.advice == Advice::look) continue;
    if (people.leaves_open(individual) || people.ruled_out().contains(individual))
      one.advice = Advice::look;
    else if (!individual.empty())
      joins[one.capture] = individual;
  }
  for (RankedCapture& one : ranked) {
    const auto own = joins.find(one.capture);
    if (own == joins.end()) continue;
    PeopleSaid& people = said[one.capture];
    for (const SaidOfPair& apart : people.different)
      if (const auto other = joins.find(apart.other); other != joins.end() && other->second == own->second)
        people.rivals.push_back(apart), one.advice = Advice::look;
  }
}

}  // namespace evet
