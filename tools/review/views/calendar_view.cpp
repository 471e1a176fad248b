// Every night that was worked, place by place, with what came of it.
#include <map>
#include <set>

#include "matcher/catalogue/known_nights.h"
#include "tools/review/views/views.h"

namespace evet::review {

nlohmann::json calendar_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const std::vector<NightIntake::Visit> visits = visits_of(catalogue);
  const Identities& who = catalogue.identities();
  struct Counts {
    std::size_t captures = 0, open = 0, fresh = 0;
    std::set<IndividualId> individuals;
  };
  std::map<NightIntake::Visit, Counts> counts;
  for (const CaptureState& capture : who.captures) {
    Counts& of = counts[{capture.facts.site, capture.facts.pond, capture.facts.night}];
    ++of.captures;
    if ((!capture.individual && !capture.closed) || capture.disputed) ++of.open;
    if (!capture.individual) continue;
    of.individuals.insert(*capture.individual);
    if (who.individual(*capture.individual)->captures.front() == capture.id) ++of.fresh;
  }
  nlohmann::json nights = nlohmann::json::array();
  for (const NightIntake::Visit& visit : visits) {
    const Counts& of = counts[visit];
    nights.push_back({{"night", visit.night},
                      {"site", visit.site},
                      {"pond", visit.pond},
                      {"captures", of.captures},
                      {"open", of.open},
                      {"new", of.fresh},
                      {"individuals", of.individuals.size()}});
  }
  return {{"nights", nights}};
}

}  // namespace evet::review
