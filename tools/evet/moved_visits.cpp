#include "tools/evet/moved_visits.h"

#include <algorithm>

namespace evet {

std::vector<Body> without_visits(Catalogue& catalogue, const std::set<NightIntake::Visit>& left,
                                 const std::set<CaptureId>& moving) {
  std::set<NightIntake::Visit> bare = left;
  const Identities& who = catalogue.identities();
  for (const CaptureState& capture : who.captures)
    if (!moving.contains(capture.id))
      bare.erase({capture.facts.site, capture.facts.pond, capture.facts.night});
  std::vector<Body> bodies;
  if (bare.empty()) return bodies;
  LedgerQuery nights_only;
  nights_only.kind = NightIntake::kKind;
  for (const ListedEntry& listed : catalogue.ledger(nights_only)) {
    if (std::binary_search(who.out_of_force.begin(), who.out_of_force.end(), listed.entry.id)) continue;
    NightIntake night = std::get<NightIntake>(body_of(listed.entry));
    const auto gone =
        std::erase_if(night.visits, [&](const NightIntake::Visit& visit) { return bare.contains(visit); });
    if (gone == 0) continue;
    bodies.push_back(Withdrawal{listed.entry.id, "its captures were moved to another night or place"});
    std::erase_if(night.nights, [&](const std::string& date) {
      return std::none_of(night.visits.begin(), night.visits.end(),
                          [&](const NightIntake::Visit& visit) { return visit.night == date; });
    });
    if (!night.visits.empty()) bodies.push_back(std::move(night));
  }
  return bodies;
}

}  // namespace evet
