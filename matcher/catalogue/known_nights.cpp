#include "matcher/catalogue/known_nights.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace evet {

NightFacts night_facts_of(Catalogue& catalogue, const NightIntake::Visit& visit) {
  LedgerQuery query;
  query.kind = NightFactsSaid::kKind;
  std::vector<ListedEntry> listed = catalogue.ledger(query);
  std::sort(listed.begin(), listed.end(),
            [](const ListedEntry& a, const ListedEntry& b) { return a.entry.id < b.entry.id; });
  const Identities& who = catalogue.identities();
  NightFacts facts;
  for (const ListedEntry& one : listed) {
    if (!who.in_force(one.entry.id)) continue;
    const auto said = std::get<NightFactsSaid>(body_of(one.entry));
    if (said.visit == visit) facts = changed(facts, said);
  }
  return facts;
}

std::vector<NightIntake::Visit> visits_of(Catalogue& catalogue) {
  const Statements& statements = catalogue.statements();
  const Identities& who = catalogue.identities();
  const auto by_night = [](const NightIntake::Visit& a, const NightIntake::Visit& b) {
    return std::tie(a.night, a.site, a.pond) < std::tie(b.night, b.site, b.pond);
  };
  std::set<NightIntake::Visit, decltype(by_night)> visits(by_night);
  for (const auto& said : statements.intakes)
    if (who.in_force(said.stamp.id)) visits.insert(said.what.visits.begin(), said.what.visits.end());
  for (const CaptureState& capture : who.captures)
    visits.insert({capture.facts.site, capture.facts.pond, capture.facts.night});
  return {visits.begin(), visits.end()};
}

}  // namespace evet
