#include "matcher/catalogue/night_facts.h"

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/catalogue/fields.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

using Json = nlohmann::json;

std::optional<double> between(const Fields& fields, const char* key, double low, double high) {
  const std::optional<double> value = fields.number_if_any(key);
  if (value && !(*value >= low && *value <= high))
    throw Error(ErrorKind::bad_input, fields.item(), Message(messages::kIsOutOfRange, {{"key", key}}),
                Message(messages::kGiveNumberFromTo, {{"low", std::to_string(static_cast<int>(low))},
                                                      {"high", std::to_string(static_cast<int>(high))}}));
  return value;
}

}  // namespace

void to_json(Json& json, const NightFacts& facts) {
  json = Json::object();
  put(json, "method", facts.method);
  put(json, "effort", facts.effort);
  put(json, "effort_unit", facts.effort_unit);
  put(json, "weather", facts.weather);
  put(json, "air_c", facts.air_c);
  put(json, "water_c", facts.water_c);
  put(json, "licence", facts.licence);
  put(json, "holder", facts.holder);
  put(json, "observers", facts.observers);
  put(json, "place", facts.place);
  put(json, "latitude", facts.latitude);
  put(json, "longitude", facts.longitude);
  put(json, "notes", facts.notes);
}

void from_json(const Json& json, NightFacts& facts) {
  const Fields fields(json, "night's facts");
  facts.method = fields.text_or_empty("method");
  facts.effort = between(fields, "effort", 0, 1'000'000);
  if (facts.effort && *facts.effort == 0)
    throw Error(ErrorKind::bad_input, fields.item(), messages::kEffortIsNothing, messages::kGiveEffort);
  facts.effort_unit = fields.text_or_empty("effort_unit");
  facts.weather = fields.text_or_empty("weather");
  facts.air_c = between(fields, "air_c", -60, 60);
  facts.water_c = between(fields, "water_c", -60, 60);
  facts.licence = fields.text_or_empty("licence");
  facts.holder = fields.text_or_empty("holder");
  facts.observers = fields.text_or_empty("observers");
  facts.place = fields.text_or_empty("place");
  facts.latitude = between(fields, "latitude", -90, 90);
  facts.longitude = between(fields, "longitude", -180, 180);
  facts.notes = fields.long_text("notes");
}

void to_json(Json& json, const NightFactsSaid& said) {
  json = {{"site", said.visit.site}, {"night", said.visit.night}, {"changes", said.changes}};
  put(json, "pond", said.visit.pond);
  put(json, "reason", said.reason);
}

void from_json(const Json& json, NightFactsSaid& said) {
  const Fields fields(json, "night_facts entry");
  said.visit = {fields.text("site"), fields.text_or_empty("pond"), fields.text("night")};
  if (!is_date(said.visit.night))
    throw Error(ErrorKind::bad_input, fields.item(),
                Message(messages::kNightIsNotDate, {{"night", said.visit.night}}), messages::kWriteIsoDate);
  said.changes = fields.any("changes");
  if (!said.changes.is_object())
    throw Error(ErrorKind::bad_input, fields.item(), messages::kFieldChangesIsNotObject);
  // Fields are right or wrong each by itself: what does not fit these facts fits none.
  changed({}, said);
  said.reason = fields.long_text("reason");
}

NightFacts changed(const NightFacts& facts, const NightFactsSaid& said) {
  Json json = facts;
  json.merge_patch(said.changes);
  return json.get<NightFacts>();
}

NightFactsSaid facts_between(const NightIntake::Visit& visit, const NightFacts& before,
                             const NightFacts& after, const std::string& reason) {
  const Json from = before, to = after;
  Json changes = Json::object();
  for (const auto& [key, value] : to.items())
    if (!from.contains(key) || from[key] != value) changes[key] = value;
  for (const auto& [key, value] : from.items())
    if (!to.contains(key)) changes[key] = nullptr;
  return {visit, changes, reason};
}

}  // namespace evet
