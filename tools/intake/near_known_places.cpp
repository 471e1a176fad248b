#include "tools/intake/near_known_places.h"

#include <set>

#include "tools/intake/messages.h"

namespace evet {

std::vector<NearPlace> near_known_places(Catalogue& catalogue, const IntakePlan& plan) {
  std::set<SiteAndPond> written, known;
  for (const PlannedCapture& capture : plan.captures)
    written.insert({capture.facts.site, capture.facts.pond});
  for (const NoCatch& none : plan.no_catches) written.insert({none.site, none.pond});
  for (const CaptureState& capture : catalogue.identities().captures)
    known.insert({capture.facts.site, capture.facts.pond});
  for (const auto& intake : catalogue.statements().intakes)
    for (const NightIntake::Visit& visit : intake.what.visits) known.insert({visit.site, visit.pond});
  return near_places(written, known);
}

SheetProblem refused_for(const NearPlace& near, const Sheet& sheet) {
  std::size_t line = 0;
  const auto look = [&](const auto& rows) {
    for (const auto& row : rows) {
      const bool here =
          near.site.empty() ? row.site == near.written : row.site == near.site && row.pond == near.written;
      if (here && (line == 0 || row.line < line)) line = row.line;
    }
  };
  look(sheet.rows), look(sheet.no_catches);
  return {line, near.site.empty() ? "site" : "pond", {near.message(), messages::kWriteItAsThat}};
}

}  // namespace evet
