#include "tools/report/choose_night.h"

#include "matcher/base/error.h"
#include "tools/report/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet {

NightIntake::Visit choose_visit(Catalogue& catalogue, const VisitWanted& wanted) {
  const std::vector<NightIntake::Visit> visits = visits_of(catalogue);
  if (visits.empty())
    throw Error(ErrorKind::not_found, catalogue.folder().string(), messages::kHoldsNoCaptureYet,
                messages::kTakeNightInWithEvet);
  const std::string night = wanted.night.empty() ? visits.back().night : wanted.night;
  std::vector<NightIntake::Visit> found;
  for (const NightIntake::Visit& visit : visits)
    if (visit.night == night && (wanted.site.empty() || visit.site == wanted.site) &&
        (wanted.pond.empty() || visit.pond == wanted.pond))
      found.push_back(visit);
  if (found.empty())
    throw Error(ErrorKind::not_found, night_item(night), messages::kNothingWasWorkedThereThen,
                Message(messages::kNewestNightIs, {{"night", visits.back().night}}));
  if (found.size() > 1) {
    std::string list;
    for (const NightIntake::Visit& visit : found)
      list += (list.empty() ? "" : "; ") + in_quotes(visit.site) +
              (visit.pond.empty() ? "" : " --pond " + in_quotes(visit.pond));
    throw Error(ErrorKind::usage, night_item(night), messages::kSeveralPlacesWereWorkedThen,
                Message(messages::kNameOneWithSite, {{"list", list}}));
  }
  return found.front();
}

}  // namespace evet
