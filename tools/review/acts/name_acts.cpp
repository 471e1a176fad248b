// What people write beside captures and individuals: labels, notes, what was done on a night, what errors cost.
#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "matcher/catalogue/calibration.h"
#include "matcher/catalogue/known_nights.h"
#include "matcher/catalogue/messages.h"
#include "tools/report/messages.h"
#include "tools/review/acts/acts.h"
#include "tools/review/acts/say_once.h"
#include "tools/review/messages.h"
#include "tools/verdicts/labels.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/night_fields.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::size_t kLongestLabel = 80, kLongestNote = 4000;

double number_in(const nlohmann::json& body, const char* field) {
  const auto at = body.find(field);
  if (at == body.end() || !at->is_number() || !std::isfinite(at->get<double>()))
    throw Error(ErrorKind::bad_input, std::string("field '") + field + "'", messages::kIsNotNumber);
  return at->get<double>();
}

}  // namespace

nlohmann::json give_label(Call& call) {
  const Actor reader = person(call.reader);
  const CaptureId id = capture_of(call.body, "individual");
  const std::string label = text_of(call.body, "label", kLongestLabel);
  Catalogue& catalogue = call.desk.catalogue;
  const Statements& said = catalogue.statements();
  const Identities& who = catalogue.identities();
  const Individual* individual = who.individual(IndividualId(id.value));
  if (individual == nullptr)
    throw Error(ErrorKind::not_found, individual_item(id.value), messages::kIsNotInCatalogue,
                messages::kMayHaveBeenJoinedAnother);
  if (individual->label == label)
    return {{"entry", nullptr}, {"position", newest_position(catalogue)}, {"again", true}};
  return say_once(call, reader, {label_for(*individual, label, said, who)});
}

nlohmann::json give_notes(Call& call) {
  const Actor reader = person(call.reader);
  const CaptureState& capture = known_capture(call, capture_of(call.body, "capture"));
  const std::string notes = text_of(call.body, "notes", kLongestNote);
  CaptureFacts after = capture.facts;
  after.notes = notes;
  const Correction correction =
      correction_between(capture.id, capture.facts, after, in_words(messages::kNotesEdited));
  if (correction.changes.empty())
    return {{"entry", nullptr}, {"position", newest_position(call.desk.catalogue)}, {"again", true}};
  return say_once(call, reader, {correction});
}

nlohmann::json give_night_facts(Call& call) {
  const Actor reader = person(call.reader);
  const NightIntake::Visit visit{text_of(call.body, "site"), text_of(call.body, "pond"),
                                 text_of(call.body, "night")};
  Catalogue& catalogue = call.desk.catalogue;
  const std::vector<NightIntake::Visit> visits = visits_of(catalogue);
  if (std::find(visits.begin(), visits.end(), visit) == visits.end())
    throw Error(ErrorKind::not_found, night_item(in_quotes(visit.night)),
                messages::kNothingWasWorkedThereThen);
  const auto texts = call.body.find("texts");
  if (texts == call.body.end() || !texts->is_object())
    throw Error(ErrorKind::bad_input, "field 'texts'", messages::kIsNotObject);
  std::map<std::string, std::string> said;
  for (const auto& [key, value] : texts->items()) said[key] = text_of(*texts, key.c_str(), kLongestNote);
  const NightFactsSaid entry =
      night_facts_said(visit, night_facts_of(catalogue, visit), said, reason_in(call.body));
  if (entry.changes.empty())
    return {{"entry", nullptr}, {"position", newest_position(catalogue)}, {"again", true}};
  return say_once(call, reader, {entry});
}

nlohmann::json set_costs(Call& call) {
  const Actor reader = person(call.reader);
  const Costs costs{number_in(call.body, "wrong_join"), number_in(call.body, "look")};
  if (costs.wrong_join <= 0 || costs.look < 0 || costs.wrong_join > 1e6 || costs.look > 1e6)
    throw Error(ErrorKind::bad_input, "costs", messages::kTheyAreOutOfRange,
                messages::kWrongJoinCostsMoreThan);
  return say_once(call, reader, {entry_of(costs)});
}

}  // namespace evet::review
