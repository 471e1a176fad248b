// The night's report: what can be written down of a night, and the page to print.
#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "tools/report/choose_night.h"
#include "tools/report/fill_report.h"
#include "tools/report/for_public.h"
#include "tools/report/messages.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/night_fields.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

VisitWanted wanted_by(const Call& call, std::size_t at) {
  VisitWanted wanted;
  if (call.target.path.size() > at) wanted.night = call.part(at);
  if (!wanted.night.empty() && !is_date(wanted.night))
    throw Error(ErrorKind::bad_input, night_item(in_quotes(wanted.night)), messages::kIsNotDateReview,
                messages::kWriteIsoDate);
  wanted.site = call.query("site"), wanted.pond = call.query("pond");
  return wanted;
}

}  // namespace

nlohmann::json report_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const VisitWanted wanted = wanted_by(call, 2);
  const std::vector<NightIntake::Visit> visits = visits_of(catalogue);
  if (visits.empty())
    return {{"night", nullptr}, {"places", nlohmann::json::array()}, {"fields", nlohmann::json::array()}};
  const std::string night = wanted.night.empty() ? visits.back().night : wanted.night;
  nlohmann::json places = nlohmann::json::array();
  NightIntake::Visit shown;
  for (const NightIntake::Visit& visit : visits) {
    if (visit.night != night) continue;
    const bool meant = (wanted.site.empty() || visit.site == wanted.site) &&
                       (wanted.pond.empty() || visit.pond == wanted.pond);
    if (meant && shown.night.empty()) shown = visit;
    places.push_back({{"site", visit.site}, {"pond", visit.pond}});
  }
  if (shown.night.empty())
    throw Error(ErrorKind::not_found, night_item(night), messages::kNothingWasWorkedThereThen);
  const NightFacts facts = night_facts_of(catalogue, shown);
  nlohmann::json fields = nlohmann::json::array();
  for (const NightField& field : night_fields()) {
    // Exact places are shown on this machine alone.
    const std::string key = field.key;
    if (!call.local && (key == "latitude" || key == "longitude")) continue;
    fields.push_back({{"key", key},
                      {"name", in_words(field.name)},
                      {"hint", in_words(field.hint)},
                      {"number", field.number},
                      {"value", field_text(facts, field)}});
  }
  return {{"night", night},
          {"site", shown.site},
          {"pond", shown.pond},
          {"places", places},
          {"fields", fields},
          {"here", call.local},
          {"position", newest_position(catalogue)}};
}

// Works on a catalogue of its own: it ranks, and verdicts go on meanwhile.
Response report_page(Call& call) {
  const std::string for_whom = call.query("for");
  if (for_whom != "authority" && for_whom != "everybody")
    throw Error(ErrorKind::bad_input, "for " + in_quotes(for_whom), messages::kNobodyIsCalledSo,
                messages::kSayAuthorityOrEverybody);
  if (for_whom == "authority" && !call.local)
    throw Error(ErrorKind::not_found, in_words(messages::kAuthoritysVersion),
                messages::kNamesExactPlacesAndIs);
  std::filesystem::path folder;
  {
    const std::lock_guard lock(call.desk.mutex);
    folder = call.desk.catalogue.folder();
  }
  ReportRequest request;
  static_cast<VisitWanted&>(request) = wanted_by(call, 1);
  Catalogue catalogue = Catalogue::open(folder, call.desk.env, {.access = Access::read});
  NightReport report = fill_report(catalogue, request, call.desk.env);
  if (for_whom == "everybody") report = for_everybody(std::move(report));
  Response response{.type = "text/html; charset=utf-8", .body = night_report_html(report)};
  if (call.query("save") == "yes")
    response.headers["Content-Disposition"] =
        "attachment; filename=\"report-" + report.night + "-" + for_whom + ".html\"";
  return document(std::move(response));
}

}  // namespace evet::review
