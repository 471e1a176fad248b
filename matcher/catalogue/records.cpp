#include "matcher/catalogue/records.h"

#include "matcher/base/error.h"
#include "matcher/catalogue/fields.h"

namespace evet {
namespace {

using Json = nlohmann::json;

std::vector<std::string> texts(const Fields& fields, const char* key) {
  std::vector<std::string> list;
  for (const Json& entry : fields.any(key)) {
    if (!entry.is_string())
      throw Error(ErrorKind::bad_input, fields.item(),
                  std::string("field '") + key + "' holds what is no text");
    list.push_back(entry.get<std::string>());
  }
  return list;
}

}  // namespace

void to_json(Json& json, const CatalogueMade& made) {
  json = Json::object();
  put(json, "title", made.title);
  put(json, "program", made.program);
}
void from_json(const Json& json, CatalogueMade& made) {
  const Fields fields(json, "catalogue_made entry");
  made.title = fields.text_or_empty("title");
  made.program = fields.text_or_empty("program");
}

void to_json(Json& json, const NightIntake& intake) {
  json = {{"nights", intake.nights},
          {"rows", intake.rows},
          {"captures", intake.captures},
          {"photos", intake.photos}};
  put(json, "sheet", intake.sheet);
  put(json, "sheet_sha256", intake.sheet_sha256);
  if (!intake.refused.empty()) json["refused"] = intake.refused;
}
void from_json(const Json& json, NightIntake& intake) {
  const Fields fields(json, "night entry");
  intake.sheet = fields.text_or_empty("sheet");
  intake.sheet_sha256 = fields.text_or_empty("sheet_sha256");
  intake.nights = texts(fields, "nights");
  intake.rows = fields.whole("rows");
  intake.captures = fields.whole("captures");
  intake.photos = fields.whole("photos");
  intake.refused = texts(fields, "refused");
}

void to_json(Json& json, const LabelGiven& label) {
  json = {{"capture", label.capture.value}, {"label", label.label}};
}
void from_json(const Json& json, LabelGiven& label) {
  const Fields fields(json, "label entry");
  label.capture = CaptureId(fields.text("capture"));
  label.label = fields.text("label");
}

void to_json(Json& json, const Withdrawal& withdrawal) {
  json = {{"target", withdrawal.target.value}};
  put(json, "reason", withdrawal.reason);
}
void from_json(const Json& json, Withdrawal& withdrawal) {
  const Fields fields(json, "withdrawal entry");
  withdrawal.target = EntryId(fields.text("target"));
  withdrawal.reason = fields.text_or_empty("reason");
}

void to_json(Json& json, const Merge& merge) {
  json = {{"entries", merge.entries}, {"photos", merge.photos}, {"heads", Json::object()}};
  for (const auto& [device, head] : merge.heads)
    json["heads"][device.value] = {{"seq", head.seq}, {"hash", head.hash}};
  put(json, "reason", merge.reason);
}
void from_json(const Json& json, Merge& merge) {
  const Fields fields(json, "merge entry");
  const Json& heads = fields.any("heads");
  if (!heads.is_object())
    throw Error(ErrorKind::bad_input, fields.item(), "field 'heads' is missing or wrong");
  for (const auto& [device, value] : heads.items()) {
    const Fields head(value, fields.item());
    merge.heads[DeviceId(device)] = {head.whole("seq"), head.text("hash")};
  }
  merge.entries = fields.whole("entries");
  merge.photos = fields.whole("photos");
  merge.reason = fields.text_or_empty("reason");
}

void to_json(Json& json, const Calibration& calibration) {
  json = {{"parameters", calibration.parameters},
          {"same_pairs", calibration.same_pairs},
          {"different_pairs", calibration.different_pairs}};
  put(json, "maker", calibration.maker);
}
void from_json(const Json& json, Calibration& calibration) {
  const Fields fields(json, "calibration entry");
  calibration.maker = fields.text_or_empty("maker");
  calibration.parameters = fields.any("parameters");
  calibration.same_pairs = fields.whole("same_pairs");
  calibration.different_pairs = fields.whole("different_pairs");
}

}  // namespace evet
