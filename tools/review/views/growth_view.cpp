// How individuals grew: those measured on more than one night, measure by measure.
#include "tools/review/views/views.h"

namespace evet::review {

nlohmann::json growth_view(Call& call) {
  const Identities& who = call.desk.catalogue.identities();
  const std::string site = call.query("site"), pond = call.query("pond");
  nlohmann::json list = nlohmann::json::array();
  std::size_t measured_once = 0;
  for (const Individual& individual : who.individuals) {
    nlohmann::json measures = nlohmann::json::array();
    bool here = site.empty();
    for (const CaptureId& id : individual.captures) {
      const CaptureFacts& facts = who.capture(id)->facts;
      here = here || (facts.site == site && (pond.empty() || facts.pond == pond));
      if (facts.svl_mm) measures.push_back({{"night", facts.night}, {"svl_mm", *facts.svl_mm}});
    }
    if (!here || measures.empty()) continue;
    if (measures.size() == 1) {
      ++measured_once;
      continue;
    }
    list.push_back({{"id", individual.id.value},
                    {"name", individual.name},
                    {"sex", name(individual.sex)},
                    {"measures", measures}});
  }
  return {{"individuals", list}, {"measured_once", measured_once}};
}

}  // namespace evet::review
