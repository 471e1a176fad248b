#include <algorithm>
#include <set>
#include <span>

#include "matcher/base/error.h"
#include "matcher/catalogue/histories.h"
#include "models/base/input_error.h"
#include "models/estimate.h"
#include "tools/numbers/numbers_in_doubt.h"
#include "tools/review/views/views.h"

namespace evet::review {
namespace {

constexpr std::size_t kAtOnce = 200;    // entries read before others may use the catalogue
constexpr std::size_t kMostRows = 400;  // of the grid: more cannot be read on a screen

HistoriesOptions asked(const Call& call) {
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
    out["too_thin"] = "Nothing has been caught yet.";
    return out;
  }
  const CatalogueHistories made = capture_histories(said, who, asked(call));
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
  for (std::size_t i = 0; i < histories.animal_count() && i < kMostRows; ++i) {
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
    histories = capture_histories(said, call.desk.catalogue.identities(), asked(call)).histories;
  }
  try {
    return json_answer(models::to_json(models::estimate(histories)));
  } catch (const models::InputError& error) {
    throw Error(ErrorKind::bad_input, "the histories", error.what());
  }
}

// The answer in numbers of animals: as if every identity were certain, and with the program's doubt about
// them carried through. Apart again, for it estimates many times over.
Response estimates_in_doubt(Call& call) {
  const std::lock_guard one_at_a_time(call.desk.in_doubt.mutex);
  Statements said;
  Identities who;
  std::vector<Doubt> doubts;
  std::size_t placed = 0;  // of the doubts: by the program; the rest is not settled
  std::string made_of;     // what the answer depends on
  {
    const std::lock_guard lock(call.desk.mutex);
    made_of = std::to_string(newest_position(call.desk.catalogue));
    for (const char* part : {"site", "pond", "from", "to"}) made_of += "\n" + call.query(part);
    said = call.desk.catalogue.statements();
    who = call.desk.catalogue.identities();
    doubts = placed_by_program(said, who);
    placed = doubts.size();
    const std::string open = first_open_night(who, asked(call));
    const auto ranked = open.empty() ? nullptr : call.desk.ranked.of(open);
    for (const CaptureState& capture : who.captures) {
      if (capture.individual || capture.facts.night != open || ranked == nullptr ||
          !ranked->evidence.contains(capture.id))
        continue;
      made_of += "\n" + capture.id.value + " " + std::to_string(ranked->generation);
      doubts.push_back({.capture = capture.id, .evidence = ranked->evidence.at(capture.id)});
    }
  }
  if (call.desk.in_doubt.made_of == made_of) return json_answer(call.desk.in_doubt.answer);
  for (std::size_t i = 0; i < placed; i += kAtOnce) {
    const std::lock_guard lock(call.desk.mutex);
    read_evidence(call.desk.catalogue, std::span(doubts).subspan(i, std::min(kAtOnce, placed - i)));
  }
  bind_to(doubts, said, who);
  std::erase_if(doubts, [](const Doubt& doubt) { return !doubt.evidence.new_probability; });
  models::EstimateRequest request;
  request.plots = false;
  try {
    call.desk.in_doubt.answer = models::to_json_of_doubt(numbers_of(said, who, doubts, asked(call), request));
  } catch (const models::InputError& error) {
    call.desk.in_doubt.answer = {{"rows", nlohmann::json::array()}, {"why", error.what()}, {"differ", ""}};
  }
  call.desk.in_doubt.answer["doubtful"] = doubts.size();
  call.desk.in_doubt.made_of = made_of;
  return json_answer(call.desk.in_doubt.answer);
}

}  // namespace evet::review
