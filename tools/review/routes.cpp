#include "tools/review/routes.h"

#include "matcher/base/error.h"
#include "tools/review/acts/acts.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

PhotoId photo_at(const Call& call, std::size_t i) {
  if (!is_photo_id(call.part(i)))
    throw Error(ErrorKind::bad_input, photo_item(in_quotes(call.part(i))), messages::kIsNotPhotosIdentifier);
  return PhotoId(call.part(i));
}
PhotoId onto(const Call& call) {
  const std::string text = call.query("onto");
  if (!text.empty() && !is_photo_id(text))
    throw Error(ErrorKind::bad_input, photo_item(in_quotes(text)), messages::kIsNotPhotosIdentifier);
  return PhotoId(text);
}

Response strip(Call& call) {
  return {.type = "image/jpeg", .body = call.desk.pictures.strip(photo_at(call, 1), onto(call))};
}
Response mask(Call& call) {
  return {.type = "image/png", .body = call.desk.pictures.mask(photo_at(call, 1), onto(call))};
}
Response photo(Call& call) {
  return {.type = "image/jpeg", .body = call.desk.pictures.photo(photo_at(call, 1))};
}
Response evidence(Call& call) {
  return {.body = call.desk.pictures.evidence(photo_at(call, 2), photo_at(call, 3))};
}

constexpr Route kRoutes[] = {
    {.method = "GET", .path = "api/catalogues", .house = catalogues_view},
    {.method = "POST", .path = "api/catalogues/make", .house = make_catalogue},
    {.method = "POST", .path = "api/catalogues/open", .house = open_catalogue},
    {.method = "POST", .path = "api/end", .house = end_program},
    {.method = "GET", .path = "api/evening", .picture = evening_view},
    {.method = "GET", .path = "api/evening/sheet", .picture = evening_sheet},
    {.method = "POST", .path = "api/evening/piece", .picture = take_piece, .raw = true},
    {.method = "POST", .path = "api/evening/cells", .picture = write_cells},
    {.method = "POST", .path = "api/evening/move", .picture = move_photos},
    {.method = "POST", .path = "api/evening/gap", .picture = set_gap},
    {.method = "POST", .path = "api/evening/leave_out", .picture = leave_out},
    {.method = "POST", .path = "api/evening/remove", .picture = remove_photos},
    {.method = "POST", .path = "api/evening/nothing", .picture = nothing_caught},
    {.method = "POST", .path = "api/evening/watch", .picture = watch_folder},
    {.method = "POST", .path = "api/evening/take", .picture = take_night},
    {.method = "GET", .path = "evening/thumb/*", .picture = evening_thumb},
    {.method = "GET", .path = "evening/photo/*", .picture = evening_photo},
    {.method = "GET", .path = "api/hello", .view = hello_view},
    {.method = "GET", .path = "api/night", .view = night_view},
    {.method = "GET", .path = "api/night/*", .view = night_view},
    {.method = "GET", .path = "api/capture/*", .view = capture_view},
    {.method = "GET", .path = "api/objections", .view = objections_view},
    {.method = "GET", .path = "api/captures", .view = captures_view},
    {.method = "GET", .path = "api/along/*", .picture = strip_along},
    {.method = "GET", .path = "api/evidence/*/*", .picture = evidence},
    {.method = "GET", .path = "api/second", .view = second_view},
    {.method = "GET", .path = "api/estimates", .picture = estimates},
    {.method = "GET", .path = "api/plan", .picture = plan_view},
    {.method = "GET", .path = "api/estimates/doubt", .picture = estimates_in_doubt},
    {.method = "GET", .path = "api/agreement", .view = agreement_view},
    {.method = "GET", .path = "api/disputes", .view = disputes_view},
    {.method = "GET", .path = "api/individuals", .view = individuals_view},
    {.method = "GET", .path = "api/individual/*", .view = individual_view},
    {.method = "GET", .path = "api/population", .view = population_view},
    {.method = "GET", .path = "api/ledger", .view = ledger_view},
    {.method = "GET", .path = "api/ledger/export", .picture = ledger_export},
    {.method = "GET", .path = "api/report", .view = report_view},
    {.method = "GET", .path = "api/report/*", .view = report_view},
    {.method = "GET", .path = "api/calendar", .view = calendar_view},
    {.method = "GET", .path = "api/map", .view = map_view},
    {.method = "GET", .path = "api/growth", .view = growth_view},
    {.method = "GET", .path = "api/catalogue", .picture = catalogue_list},
    {.method = "GET", .path = "api/settings", .view = settings_view},
    {.method = "GET", .path = "report/*", .picture = report_page},
    {.method = "GET", .path = "catalogue", .picture = catalogue_page},
    {.method = "GET", .path = "strip/*", .picture = strip},
    {.method = "GET", .path = "mask/*", .picture = mask},
    {.method = "GET", .path = "photo/*", .picture = photo},
    {.method = "POST", .path = "api/verdict", .view = give_verdict},
    {.method = "POST", .path = "api/close", .view = close_capture},
    {.method = "POST", .path = "api/accept", .view = accept_advice},
    {.method = "POST", .path = "api/take_back", .view = take_back},
    {.method = "POST", .path = "api/midline", .view = draw_midline},
    {.method = "POST", .path = "api/turn", .view = turn_strip},
    {.method = "POST", .path = "api/usable", .view = set_usable},
    {.method = "POST", .path = "api/reading", .view = read_photos},
    {.method = "POST", .path = "api/adjudicate", .view = adjudicate},
    {.method = "POST", .path = "api/label", .view = give_label},
    {.method = "POST", .path = "api/notes", .view = give_notes},
    {.method = "POST", .path = "api/night_facts", .view = give_night_facts},
    {.method = "POST", .path = "api/night/move", .view = move_night},
    {.method = "POST", .path = "api/costs", .view = set_costs},
};

bool fits(std::string_view shape, const std::vector<std::string>& path) {
  std::size_t at = 0;
  for (std::size_t i = 0; i < path.size(); ++i) {
    if (at > shape.size()) return false;
    const std::size_t end = std::min(shape.find('/', at), shape.size());
    const std::string_view part = shape.substr(at, end - at);
    if (part != "*" && part != path[i]) return false;
    at = end + 1;
  }
  return at == shape.size() + 1;
}

}  // namespace

std::span<const Route> all_routes() {
  return kRoutes;
}

const Route* find_route(const std::string& method, const Target& target) {
  std::string_view wanted = method;
  if (wanted == "HEAD") wanted = "GET";
  for (const Route& route : kRoutes)
    if (wanted == route.method && fits(route.path, target.path)) return &route;
  return nullptr;
}

}  // namespace evet::review
