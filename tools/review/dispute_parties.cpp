#include "tools/review/dispute_parties.h"

namespace evet::review {

const Said<Verdict>* find_verdict(const Statements& said, const EntryId& id) {
  for (const auto& verdict : said.verdicts)
    if (verdict.stamp.id == id) return &verdict;
  return nullptr;
}

Parties parties_of(const Dispute& dispute, const Statements& said) {
  Parties out;
  for (const auto* list : {&dispute.against, &dispute.contested})
    for (const EntryId& id : *list) {
      out.entries.insert(id);
      const auto* verdict = find_verdict(said, id);
      if (verdict != nullptr && verdict->stamp.actor.kind == ActorKind::person)
        out.readers.insert(verdict->stamp.actor.name);
    }
  return out;
}

}  // namespace evet::review
