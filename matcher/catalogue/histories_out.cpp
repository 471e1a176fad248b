#include "matcher/catalogue/histories_out.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>

namespace evet {
namespace {

bool covers(const HistoriesRequest& request, const CaptureFacts& facts) {
  return (request.site.empty() || facts.site == request.site) &&
         (request.pond.empty() || facts.pond == request.pond) &&
         (request.from.empty() || facts.night >= request.from) &&
         (request.to.empty() || facts.night <= request.to);
}

std::string place_of(const CaptureFacts& facts) {
  return facts.pond.empty() ? facts.site : facts.site + ", " + facts.pond;
}

}  // namespace

HistoriesMade histories_of(const Identities& identities, const HistoriesRequest& request) {
  HistoriesMade made;
  std::map<std::string, double> nights;  // -> effort, not-a-number where unknown
  constexpr double kUnknown = std::numeric_limits<double>::quiet_NaN();
  for (const NightWorked& worked : request.worked)
    if ((request.from.empty() || worked.night >= request.from) &&
        (request.to.empty() || worked.night <= request.to))
      nights[worked.night] = worked.effort.value_or(kUnknown);
  std::map<IndividualId, std::vector<const CaptureState*>> caught;
  for (const CaptureState& capture : identities.captures) {
    if (!covers(request, capture.facts)) continue;
    nights.emplace(capture.facts.night, kUnknown);
    ++made.captures;
    if (capture.disputed) ++made.disputed;
    if (capture.by_program) ++made.by_program;
    if (capture.individual)
      caught[*capture.individual].push_back(&capture);
    else
      ++made.unsettled;
  }

  models::CaptureHistories& out = made.histories;
  bool effort_known = !nights.empty();
  std::map<std::string, size_t> column;
  for (const auto& [night, effort] : nights) {
    column[night] = out.occasions.size();
    out.occasions.push_back(night);
    out.dates.push_back(night);
    effort_known = effort_known && effort == effort;
  }
  if (effort_known)
    for (const auto& [night, effort] : nights) out.occasion_covariates["effort"].push_back(effort);

  std::set<std::string> places;
  bool any_svl = false, any_sex = false;
  std::vector<std::string> place, sex;
  std::vector<double> svl;
  for (const Individual& individual : identities.individuals) {
    const auto at = caught.find(individual.id);
    if (at == caught.end()) continue;
    out.animals.push_back(individual.name);
    std::vector<std::uint8_t> row(out.occasions.size());
    double svl_mm = kUnknown;
    for (const CaptureState* capture : at->second) {
      row[column[capture->facts.night]] = 1;
      if (svl_mm != svl_mm && capture->facts.svl_mm) svl_mm = *capture->facts.svl_mm;
    }
    out.caught.insert(out.caught.end(), row.begin(), row.end());
    place.push_back(place_of(at->second.front()->facts));
    places.insert(place.back());
    sex.push_back(name(individual.sex));
    any_sex = any_sex || individual.sex != Sex::unknown;
    svl.push_back(svl_mm);
    any_svl = any_svl || svl_mm == svl_mm;
  }
  if (any_sex) out.groups["sex"] = sex;
  if (places.size() > 1) out.groups["site"] = place;
  if (any_svl) out.covariates["svl_mm"] = svl;
  return made;
}

}  // namespace evet
