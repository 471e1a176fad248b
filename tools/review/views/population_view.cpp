#include <algorithm>
#include <set>

#include "matcher/base/error.h"
#include "matcher/catalogue/histories.h"
#include "models/base/input_error.h"
#include "models/estimate.h"
#include "tools/numbers/numbers_in_doubt.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/words/in_words.h"

namespace evet::review {
namespace {

constexpr std::size_t kMostGridRows = 400;  // of the grid: more cannot be read on a screen

HistoriesOptions histories_asked(const Call& call) {
  HistoriesOptions options;
  options.site = call.query("site"), options.pond = call.query("pond");
  options.from = call.query("from"), options.to = call.query("to");
  return options;
}

nlohmann::json places_of(const Identities& who) {
  std::set<std::pair<std::string, std::string>> places;
  for (const CaptureState& capture : who.captures) places.insert({capture.facts.site, capture.facts.pond});
  nlohmann::json list = nlohmann::json::array();
  for (const auto& [site, pond] : places) list.push_back({{"site", site}, {"pond", pond}});
  return list;
}

}  // namespace

nlohmann::json population_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const Statements& said = catalogue.statements();
  const Identities& who = catalogue.identities();
  nlohmann::json out = {{"places", places_of(who)}, {"too_thin", nullptr}};
  if (who.captures.empty()) {
    out["too_thin"] = in_words(messages::kNothingCaughtYet);
    return out;
  }
  const CatalogueHistories made = capture_histories(said, who, histories_asked(call));
  const models::CaptureHistories& histories = made.histories;
  nlohmann::json rows = nlohmann::json::array(), discovery = nlohmann::json::array();
  std::vector<bool> seen(histories.animal_count());
  std::size_t catches = 0, individuals = 0;
  for (std::size_t k = 0; k < histories.occasion_count(); ++k) {
    for (std::size_t i = 0; i < histories.animal_count(); ++i)
      if (histories.was_caught(i, k)) {
        ++catches;
        if (!seen[i]) seen[i] = true, ++individuals;
      }
    discovery.push_back(
        {{"night", histories.occasions[k]}, {"catches", catches}, {"individuals", individuals}});
  }
  for (std::size_t i = 0; i < histories.animal_count() && i < kMostGridRows; ++i) {
    nlohmann::json nights = nlohmann::json::array();
    for (std::size_t k = 0; k < histories.occasion_count(); ++k)
      if (histories.was_caught(i, k)) nights.push_back(k);
    rows.push_back({{"name", histories.animals[i]}, {"id", made.individuals[i].value}, {"nights", nights}});
  }
  out["nights"] = histories.occasions;
  out["animals"] = histories.animal_count();
  out["rows"] = rows;
  out["discovery"] = discovery;
  out["captures"] = made.report.captures;
  out["used"] = made.report.used;
  const auto unmatchable =
      std::count_if(made.report.unsettled.begin(), made.report.unsettled.end(),
                    [](const NotedCapture& capture) { return !capture.usable && !capture.disputed; });
  out["unsettled"] = made.report.unsettled.size();
  out["unmatchable"] = unmatchable;  // of these
  out["disputed"] = made.report.disputed.size();
  out["open_nights"] = made.report.open_nights;  // no figure takes them for nights without a catch
  out["by_program"] = made.report.by_program.size();
  return out;
}

// Apart from the grid, for it may take seconds; and without the lock, so that verdicts go on.
Response estimates(Call& call) {
  models::CaptureHistories histories;
  {
    const std::lock_guard lock(call.desk.mutex);
    const Statements& said = call.desk.catalogue.statements();
    histories = capture_histories(said, call.desk.catalogue.identities(), histories_asked(call)).histories;
  }
  try {
    return json_answer(models::to_json(models::estimate(histories)));
  } catch (const models::InputError& error) {
    throw Error(ErrorKind::bad_input, in_words(messages::kTheHistories), error.what());
  }
}

// The answer in numbers of animals: as if every identity were certain, and with the program's doubt about
// them carried through. Apart again, for it ranks every open night and estimates many times over.
Response estimates_in_doubt(Call& call) {
  auto& kept = call.desk.in_doubt;
  const std::lock_guard one_at_a_time(kept.mutex);
  if (!kept.catalogue) kept.catalogue = Catalogue::open(call.desk.catalogue.folder(), call.desk.env);
  const Statements said = kept.catalogue->statements();
  const Identities who = kept.catalogue->identities();
  std::string made_of = std::to_string(newest_position(*kept.catalogue));
  for (const char* part : {"site", "pond", "from", "to"}) made_of += "\n" + call.query(part);
  if (kept.made_of == made_of) return json_answer(kept.answer);
  const HistoriesOptions where = histories_asked(call);
  const std::vector<Doubt> doubts = doubts_of(*kept.catalogue, said, who, where, call.desk.threads);
  models::EstimateRequest request;
  request.plots = false;
  try {
    kept.answer = models::to_json_of_doubt(numbers_of(said, who, doubts, where, request));
  } catch (const models::InputError& error) {
    kept.answer = {{"rows", nlohmann::json::array()}, {"why", error.what()}, {"differ", ""}};
  }
  kept.answer["doubtful"] = doubts.size();
  kept.made_of = made_of;
  return json_answer(kept.answer);
}

}  // namespace evet::review
