#include "tools/report/choose_night.h"

#include "matcher/base/error.h"
#include "tools/words/text.h"

namespace evet {

NightIntake::Visit choose_visit(Catalogue& catalogue, const VisitWanted& wanted) {
  const std::vector<NightIntake::Visit> visits = visits_of(catalogue);
  if (visits.empty())
    throw Error(ErrorKind::not_found, catalogue.folder().string(), "it holds no capture yet",
                "take a night in with 'evet intake'");
  const std::string night = wanted.night.empty() ? visits.back().night : wanted.night;
  std::vector<NightIntake::Visit> found;
  for (const NightIntake::Visit& visit : visits)
    if (visit.night == night && (wanted.site.empty() || visit.site == wanted.site) &&
        (wanted.pond.empty() || visit.pond == wanted.pond))
      found.push_back(visit);
  if (found.empty())
    throw Error(ErrorKind::not_found, "night " + night,
                "nothing was worked there then, as far as the sheets say",
                "the newest night is " + visits.back().night);
  if (found.size() > 1) {
    std::string list;
    for (const NightIntake::Visit& visit : found)
      list += (list.empty() ? "" : "; ") + evet::quoted(visit.site) +
              (visit.pond.empty() ? "" : " --pond " + evet::quoted(visit.pond));
    throw Error(ErrorKind::usage, "night " + night, "several places were worked then",
                "name one with --site: " + list);
  }
  return found.front();
}

}  // namespace evet
