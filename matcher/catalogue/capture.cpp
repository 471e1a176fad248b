#include "matcher/catalogue/capture.h"

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/catalogue/fields.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {
using Json = nlohmann::json;
}

void to_json(Json& json, const CaptureFacts& facts) {
  json = Json::object();
  put(json, "site", facts.site);
  put(json, "pond", facts.pond);
  put(json, "night", facts.night);
  put(json, "trap", facts.trap);
  put(json, "name", facts.name);
  if (facts.sex != Sex::unknown) json["sex"] = name(facts.sex);
  put(json, "stage", facts.stage);
  put(json, "svl_mm", facts.svl_mm);
  put(json, "total_mm", facts.total_mm);
  put(json, "mass_g", facts.mass_g);
  put(json, "observer", facts.observer);
  put(json, "licence", facts.licence);
  put(json, "latitude", facts.latitude);
  put(json, "longitude", facts.longitude);
  put(json, "individual", facts.individual);
  put(json, "notes", facts.notes);
  put_flag(json, "lost", facts.lost);
}

void from_json(const Json& json, CaptureFacts& facts) {
  const Fields fields(json, "capture entry");
  facts.site = fields.text("site");
  facts.pond = fields.text_or_empty("pond");
  facts.night = fields.text("night");
  if (!is_date(facts.night))
    throw Error(ErrorKind::bad_input, fields.item(),
                Message(messages::kNightIsNotDate, {{"night", facts.night}}), messages::kWriteIsoDate);
  facts.trap = fields.text_or_empty("trap");
  facts.name = fields.text_or_empty("name");
  const std::string sex = fields.text_or_empty("sex");
  const auto known_sex = sex_named(sex);
  if (!known_sex)
    throw Error(ErrorKind::bad_input, fields.item(), Message(messages::kSexIsNotKnown, {{"sex", sex}}),
                messages::kUseFemaleMaleOrUnknown);
  facts.sex = *known_sex;
  facts.stage = fields.text_or_empty("stage");
  facts.svl_mm = fields.number_if_any("svl_mm");
  facts.total_mm = fields.number_if_any("total_mm");
  facts.mass_g = fields.number_if_any("mass_g");
  facts.observer = fields.text_or_empty("observer");
  facts.licence = fields.text_or_empty("licence");
  facts.latitude = fields.number_if_any("latitude");
  facts.longitude = fields.number_if_any("longitude");
  facts.individual = fields.text_or_empty("individual");
  facts.notes = fields.long_text("notes");
  facts.lost = fields.flag("lost");
}

void to_json(Json& json, const Capture& capture) {
  json = {{"capture", capture.id.value}, {"facts", capture.facts}};
}
void from_json(const Json& json, Capture& capture) {
  const Fields fields(json, "capture entry");
  capture.id = CaptureId(fields.text("capture"));
  capture.facts = fields.any("facts").get<CaptureFacts>();
}

Correction correction_between(const CaptureId& capture, const CaptureFacts& before, const CaptureFacts& after,
                              const std::string& reason) {
  const Json from = before, to = after;
  Json changes = Json::object();
  for (const auto& [key, value] : to.items())
    if (!from.contains(key) || from[key] != value) changes[key] = value;
  for (const auto& [key, value] : from.items())
    if (!to.contains(key)) changes[key] = nullptr;
  return {capture, changes, reason};
}

CaptureFacts corrected(const CaptureFacts& facts, const Correction& correction) {
  Json json = facts;
  json.merge_patch(correction.changes);
  return json.get<CaptureFacts>();
}

void to_json(Json& json, const Correction& correction) {
  json = {{"capture", correction.capture.value}, {"changes", correction.changes}};
  put(json, "reason", correction.reason);
}
void from_json(const Json& json, Correction& correction) {
  const Fields fields(json, "correction entry");
  correction.capture = CaptureId(fields.text("capture"));
  correction.changes = fields.any("changes");
  if (!correction.changes.is_object())
    throw Error(ErrorKind::bad_input, fields.item(), messages::kFieldChangesIsNotObject);
  // Fields are right or wrong each by itself: what does not fit these facts fits none.
  CaptureFacts any;
  any.site = "any", any.night = "2000-01-01";
  corrected(any, correction);
  correction.reason = fields.long_text("reason");
}

}  // namespace evet
