#include "matcher/catalogue/calibration.h"

#include <algorithm>

#include "matcher/base/sha256.h"
#include "matcher/base/version.h"
#include "matcher/pattern/embedding_net.h"
#include "matcher/pattern/spot_net.h"
#include "matcher/search/likelihood.h"
#include "matcher/search/pair_net.h"

namespace evet {

const std::string& matching_model_id() {
  static const std::string id = sha256_hex(to_json(shipped_matching_model()) + sha256_hex(spot_weights()) +
                                           sha256_hex(embedding_weights()) + sha256_hex(pair_weights()))
                                    .substr(0, 16);
  return id;
}

Calibration entry_of(const OwnCalibration& own) {
  return {kProgram,
          {{"llr_map", {{"scale", own.map.scale}, {"shift", own.map.shift}, {"model", own.model}}},
           {"individuals", own.individuals},
           {"cllr_before", own.cllr_before},
           {"cllr_after", own.cllr_after}},
          own.same_pairs,
          own.different_pairs};
}

Calibration entry_of(const Costs& costs) {
  return {kProgram, {{"costs", {{"wrong_join", costs.wrong_join}, {"look", costs.look}}}}, 0, 0};
}

CalibrationInForce calibration_in_force(Catalogue& catalogue) {
  LedgerQuery query;
  query.kind = Calibration::kKind;
  std::vector<ListedEntry> listed = catalogue.ledger(query);
  std::sort(listed.begin(), listed.end(),
            [](const ListedEntry& a, const ListedEntry& b) { return a.entry.id > b.entry.id; });
  const Identities& who = catalogue.identities();
  CalibrationInForce found;
  for (const ListedEntry& one : listed) {
    if (!who.in_force(one.entry.id)) continue;
    const Calibration said = std::get<Calibration>(body_of(one.entry));
    const SaidBy by{one.entry.id, one.entry.time, one.entry.actor};
    if (const auto map = said.parameters.find("llr_map");
        map != said.parameters.end() && !found.calibration && !found.of_other_weights) {
      const OwnCalibration own{{map->at("scale"), map->at("shift")},
                               map->at("model"),
                               said.parameters.value("individuals", std::int64_t{0}),
                               said.same_pairs,
                               said.different_pairs,
                               said.parameters.value("cllr_before", 0.0),
                               said.parameters.value("cllr_after", 0.0)};
      found.calibration_by = by;
      if (own.model == matching_model_id())
        found.calibration = own;
      else
        found.of_other_weights = true;
    }
    if (const auto costs = said.parameters.find("costs"); costs != said.parameters.end() && !found.costs) {
      found.costs = Costs{costs->at("wrong_join"), costs->at("look")};
      found.costs_by = by;
    }
  }
  return found;
}

SearchOptions search_options_of(Catalogue& catalogue) {
  const CalibrationInForce found = calibration_in_force(catalogue);
  SearchOptions options;
  if (found.calibration) options.calibration = found.calibration->map;
  if (found.costs) {
    options.wrong_join_over_missed = found.costs->wrong_join;
    options.look_over_missed = found.costs->look;
  }
  return options;
}

}  // namespace evet
