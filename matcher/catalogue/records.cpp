#include "matcher/catalogue/records.h"

#include <cmath>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/catalogue/fields.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

using Json = nlohmann::json;

std::vector<std::string> texts(const Fields& fields, const char* key) {
  std::vector<std::string> list;
  for (const Json& entry : fields.any(key)) {
    if (!entry.is_string())
      throw Error(ErrorKind::bad_input, fields.item(),
                  Message(messages::kFieldHoldsWhatIsNo, {{"key", key}}));
    list.push_back(entry.get<std::string>());
  }
  return list;
}

std::string date(const std::string& night) {
  if (!is_date(night))
    throw Error(ErrorKind::bad_input, "night entry", Message(messages::kNightIsNotDate, {{"night", night}}),
                messages::kWriteIsoDate);
  return night;
}

// What is known of a calibration's parameters must make sense; what is not known is kept as it stands.
void check_parameters(const Json& parameters, const std::string& item) {
  const auto above = [&](const Fields& fields, const char* key, double least, bool or_equal) {
    const double value = fields.number(key);
    if (!std::isfinite(value) || value < least || (value == least && !or_equal))
      throw Error(ErrorKind::bad_input, item, Message(messages::kIsOutOfRange, {{"key", key}}));
  };
  if (const auto map = parameters.find("llr_map"); map != parameters.end()) {
    const Fields fields(*map, item + ", llr_map");
    above(fields, "scale", 0, false);
    if (!std::isfinite(fields.number("shift")))
      throw Error(ErrorKind::bad_input, item, messages::kShiftIsOutOfRange);
    fields.text("model");
    const Fields all(parameters, item);
    all.whole("individuals"), all.number("cllr_before"), all.number("cllr_after");
  }
  if (const auto costs = parameters.find("costs"); costs != parameters.end()) {
    const Fields fields(*costs, item + ", costs");
    above(fields, "wrong_join", 0, false);
    above(fields, "look", 0, true);
  }
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
  if (!intake.refused_lines.empty()) json["refused_lines"] = intake.refused_lines;
  for (const NightIntake::Visit& visit : intake.visits) {
    Json entry{{"site", visit.site}, {"night", visit.night}};
    put(entry, "pond", visit.pond);
    json["visits"].push_back(std::move(entry));
  }
  put(json, "in_spite_of", intake.in_spite_of);
}
void from_json(const Json& json, NightIntake& intake) {
  const Fields fields(json, "night entry");
  intake.sheet = fields.text_or_empty("sheet");
  intake.sheet_sha256 = fields.text_or_empty("sheet_sha256");
  intake.nights = texts(fields, "nights");
  for (const std::string& night : intake.nights) date(night);
  intake.rows = fields.whole("rows");
  intake.captures = fields.whole("captures");
  intake.photos = fields.whole("photos");
  intake.refused = texts(fields, "refused");
  for (const Json& line : fields.any("refused_lines")) {
    if (!line.is_number_integer()) fields.whole("refused_lines");  // says that it is wrong
    intake.refused_lines.push_back(line.get<std::int64_t>());
  }
  if (!intake.refused_lines.empty() && intake.refused_lines.size() != intake.refused.size())
    throw Error(ErrorKind::bad_input, fields.item(), messages::kRefusedLinesDiffer);
  for (const Json& entry : fields.any("visits")) {
    const Fields visit(entry, fields.item());
    intake.visits.push_back({visit.text("site"), visit.text_or_empty("pond"), date(visit.text("night"))});
  }
  intake.in_spite_of = objections_in(fields, "in_spite_of");
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
  withdrawal.reason = fields.long_text("reason");
}

void to_json(Json& json, const Merge& merge) {
  json = {{"entries", merge.entries}, {"photos", merge.photos}, {"heads", Json::object()}};
  for (const auto& [device, head] : merge.heads)
    json["heads"][device.value] = {{"seq", head.seq}, {"hash", head.hash}};
  for (const auto& [device, head] : merge.also)
    json["also"].push_back({{"device", device.value}, {"seq", head.seq}, {"hash", head.hash}});
  put(json, "reason", merge.reason);
  put(json, "in_spite_of", merge.in_spite_of);
  for (const PhotoId& photo : merge.without_file) json["without_file"].push_back(photo.value);
}
void from_json(const Json& json, Merge& merge) {
  const Fields fields(json, "merge entry");
  const Json& heads = fields.any("heads");
  if (!heads.is_object()) throw Error(ErrorKind::bad_input, fields.item(), messages::kFieldHeadsIsMissingOr);
  for (const auto& [device, value] : heads.items()) {
    const Fields head(value, fields.item());
    merge.heads[DeviceId(device)] = {head.whole("seq"), head.text("hash")};
  }
  for (const Json& value : fields.any("also")) {
    const Fields end(value, fields.item());
    merge.also.push_back({DeviceId(end.text("device")), {end.whole("seq"), end.text("hash")}});
  }
  merge.entries = fields.whole("entries");
  merge.photos = fields.whole("photos");
  merge.reason = fields.text_or_empty("reason");
  merge.in_spite_of = objections_in(fields, "in_spite_of");
  for (const Json& value : fields.any("without_file")) {
    if (!value.is_string() || !is_sha256(value.get_ref<const std::string&>()))
      throw Error(ErrorKind::bad_input, fields.item(), messages::kFieldWithoutFileNamesNoPhoto);
    merge.without_file.emplace_back(value.get<std::string>());
  }
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
  if (calibration.parameters.is_object()) check_parameters(calibration.parameters, fields.item());
  calibration.same_pairs = fields.whole("same_pairs");
  calibration.different_pairs = fields.whole("different_pairs");
}

}  // namespace evet
