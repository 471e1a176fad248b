// A night under a wrong date or place, moved whole: as `evet intake --move` does with a mended sheet.
#include "matcher/base/error.h"
#include "tools/intake/intake_night.h"
#include "tools/intake/moved_visits.h"
#include "tools/intake/sheet_values.h"
#include "tools/report/messages.h"
#include "tools/review/acts/acts.h"
#include "tools/review/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

NightIntake::Visit visit_in(const nlohmann::json& body, const char* field) {
  const auto at = body.find(field);
  if (at == body.end() || !at->is_object())
    throw Error(ErrorKind::bad_input, std::string("field '") + field + "'", messages::kIsNoPlaceAndNight);
  return {text_of(*at, "site"), text_of(*at, "pond"), text_of(*at, "night")};
}

}  // namespace

nlohmann::json move_night(Call& call) {
  const Actor reader = person(call.reader);
  Catalogue& catalogue = call.desk.catalogue;
  const NightIntake::Visit from = visit_in(call.body, "from");
  NightIntake::Visit to = visit_in(call.body, "to");
  const std::string reason = reason_in(call.body);
  if (reason.empty())
    throw Error(ErrorKind::bad_input, in_words(messages::kTheReason), messages::kIsEmpty,
                messages::kSayWhatWasWrong);
  if (to.site.empty())
    throw Error(ErrorKind::bad_input, in_words(messages::kTheSite), messages::kIsEmpty,
                messages::kNameTheSite);
  const Cell<std::string> night = read_night(to.night, today(call.desk.env));
  if (night.problem) throw Error(ErrorKind::bad_input, in_words(messages::kTheNight), *night.problem);
  to.night = night.value;
  const auto written = catalogue.append(reader, moved_visit(catalogue, from, to, reason));
  return {{"entry", written.front().id.value},
          {"night", to.night},
          {"position", newest_position(catalogue)},
          {"again", false}};
}

}  // namespace evet::review
