// The ponds where the sheets say they lie: exactly on the machine that keeps the catalogue, coarsely elsewhere.
#include <map>
#include <set>

#include "matcher/catalogue/known_nights.h"
#include "tools/review/views/views.h"
#include "tools/words/coarse_place.h"

namespace evet::review {
namespace {

struct Pond {
  double latitude_sum = 0, longitude_sum = 0;
  std::size_t located = 0, captures = 0;
  std::set<std::string> nights;
  std::set<IndividualId> individuals;
};

using Place = std::pair<std::string, std::string>;  // site, pond

std::map<Place, Pond> ponds_of(Catalogue& catalogue) {
  std::map<Place, Pond> ponds;
  const std::vector<NightIntake::Visit> visits = visits_of(catalogue);
  for (const NightIntake::Visit& visit : visits) {
    Pond& pond = ponds[{visit.site, visit.pond}];
    pond.nights.insert(visit.night);
    const NightFacts facts = night_facts_of(catalogue, visit);
    if (facts.latitude && facts.longitude)
      pond.latitude_sum += *facts.latitude, pond.longitude_sum += *facts.longitude, ++pond.located;
  }
  for (const CaptureState& capture : catalogue.identities().captures) {
    const CaptureFacts& facts = capture.facts;
    Pond& pond = ponds[{facts.site, facts.pond}];
    ++pond.captures;
    if (capture.individual) pond.individuals.insert(*capture.individual);
    if (facts.latitude && facts.longitude)
      pond.latitude_sum += *facts.latitude, pond.longitude_sum += *facts.longitude, ++pond.located;
  }
  return ponds;
}

}  // namespace

nlohmann::json map_view(Call& call) {
  nlohmann::json list = nlohmann::json::array();
  for (const auto& [place, pond] : ponds_of(call.desk.catalogue)) {
    nlohmann::json one = {{"site", place.first},
                          {"pond", place.second},
                          {"captures", pond.captures},
                          {"nights", pond.nights.size()},
                          {"individuals", pond.individuals.size()},
                          {"latitude", nullptr},
                          {"longitude", nullptr}};
    if (pond.located > 0) {
      const auto n = static_cast<double>(pond.located);
      const double latitude = pond.latitude_sum / n, longitude = pond.longitude_sum / n;
      const CoarsePlace coarse = coarse_place(latitude, longitude);
      one["latitude"] = call.local ? latitude : coarse.latitude;
      one["longitude"] = call.local ? longitude : coarse.longitude;
      one["words"] = call.local ? exact_place(latitude, longitude) : in_words(coarse);
      if (!call.local) one["uncertainty_m"] = coarse.uncertainty_m;
    }
    list.push_back(std::move(one));
  }
  return {{"ponds", list}, {"exact", call.local}};
}

}  // namespace evet::review
