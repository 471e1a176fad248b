// Everyone side by side, like beside like: as a list for the page, and as a page to print.
#include "matcher/base/version.h"
#include "matcher/catalogue/calibration.h"
#include "tools/report/strip_catalogue.h"
#include "tools/review/views/views.h"
#include "tools/words/costs_words.h"

namespace evet::review {
namespace {

// A catalogue of its own, so that verdicts go on while patterns are read.
Catalogue opened(Call& call) {
  std::filesystem::path folder;
  {
    const std::lock_guard lock(call.desk.mutex);
    folder = call.desk.catalogue.folder();
  }
  return Catalogue::open(folder, call.desk.env, {.access = Access::read});
}

}  // namespace

Response catalogue_list(Call& call) {
  Catalogue catalogue = opened(call);
  nlohmann::json list = nlohmann::json::array();
  for (const CatalogueStrip& one : strips_by_likeness(catalogue, 1))
    list.push_back(
        {{"id", one.id.value},
         {"name", one.name},
         {"aliases", one.aliases},
         {"sex", one.sex},
         {"first", one.first_night},
         {"last", one.last_night},
         {"captures", one.captures},
         {"strip", one.photo.empty() ? nlohmann::json(nullptr) : nlohmann::json(one.photo.value)}});
  return json_answer({{"individuals", list}});
}

Response catalogue_page(Call& call) {
  Catalogue catalogue = opened(call);
  Response response{.type = "text/html; charset=utf-8",
                    .body = strip_catalogue_html(catalogue, strips_by_likeness(catalogue, 1), call.desk.env)};
  if (call.query("save") == "yes")
    response.headers["Content-Disposition"] = "attachment; filename=\"strips.html\"";
  return document(std::move(response));
}

nlohmann::json settings_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const CalibrationInForce found = calibration_in_force(catalogue);
  const Costs costs = found.costs.value_or(Costs{});
  nlohmann::json calibration = nullptr;
  if (found.calibration)
    calibration = {{"individuals", found.calibration->individuals},
                   {"cllr_before", found.calibration->cllr_before},
                   {"cllr_after", found.calibration->cllr_after},
                   {"by", found.calibration_by.actor.name},
                   {"time", found.calibration_by.time}};
  nlohmann::json by = nullptr;
  if (found.costs) by = {{"by", found.costs_by.actor.name}, {"time", found.costs_by.time}};
  return {{"title", catalogue.title()},
          {"program", kProgram},
          {"folder", call.local ? nlohmann::json(catalogue.folder().string()) : nlohmann::json(nullptr)},
          {"costs", {{"wrong_join", costs.wrong_join}, {"look", costs.look}}},
          {"costs_words", in_words(costs)},
          {"costs_by", by},
          {"calibration", calibration},
          {"calibration_of_other_weights", found.of_other_weights},
          {"ledger_head", catalogue.head_hash()},
          {"position", newest_position(catalogue)}};
}

}  // namespace evet::review
