#include "matcher/catalogue/verdict.h"

#include <array>

#include "matcher/base/error.h"
#include "matcher/base/uuid.h"
#include "matcher/catalogue/fields.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

using Json = nlohmann::json;
constexpr std::array<const char*, 4> kAnswers{"same", "different", "cannot_tell", "new"};

Json json_of(const Evidence& evidence) {
  Json json = Json::object();
  put(json, "maker", evidence.maker);
  put(json, "new_probability", evidence.new_probability);
  for (const Shown& shown : evidence.shown) {
    Json entry{
        {"probability", shown.probability}, {"score", shown.score}, {"matched_spots", shown.matched_spots}};
    put(entry, "individual", shown.individual.value);
    put(entry, "capture", shown.capture.value);
    put(entry, "photo", shown.photo.value);
    put(entry, "query_photo", shown.query_photo.value);
    json["shown"].push_back(std::move(entry));
  }
  return json;
}

Evidence evidence_of(const Json& json) {
  Evidence evidence;
  if (json.is_null()) return evidence;
  const Fields fields(json, "verdict entry");
  evidence.maker = fields.text_or_empty("maker");
  evidence.new_probability = fields.number_if_any("new_probability");
  for (const Json& entry : fields.any("shown")) {
    const Fields shown(entry, "verdict entry");
    evidence.shown.push_back(
        {IndividualId(shown.text_or_empty("individual")), CaptureId(shown.text_or_empty("capture")),
         PhotoId(shown.text_or_empty("photo")), PhotoId(shown.text_or_empty("query_photo")),
         shown.number("probability"), shown.number("score"),
         static_cast<int>(shown.whole_between("matched_spots", 0, 1'000'000))});
  }
  return evidence;
}

}  // namespace

const char* name(Answer answer) {
  return kAnswers[static_cast<size_t>(answer)];
}

std::optional<Answer> answer_named(const std::string& text) {
  for (size_t i = 0; i < kAnswers.size(); ++i)
    if (text == kAnswers[i]) return static_cast<Answer>(i);
  return std::nullopt;
}

void to_json(Json& json, const Verdict& verdict) {
  json = {{"capture", verdict.capture.value}, {"answer", name(verdict.answer)}};
  put(json, "other", verdict.other.value);
  put(json, "reason", verdict.reason);
  if (Json evidence = json_of(verdict.evidence); !evidence.empty()) json["evidence"] = std::move(evidence);
  put(json, "in_spite_of", verdict.in_spite_of);
  put_flag(json, "blind", verdict.blind);
  put_flag(json, "planted", verdict.planted);
  for (const EntryId& settled : verdict.settles) json["settles"].push_back(settled.value);
}

void from_json(const Json& json, Verdict& verdict) {
  const Fields fields(json, "verdict entry");
  verdict.capture = CaptureId(fields.text("capture"));
  verdict.other = CaptureId(fields.text_or_empty("other"));
  const auto answer = answer_named(fields.text("answer"));
  if (!answer)
    throw Error(ErrorKind::bad_input, fields.item(),
                Message(messages::kAnswerIsNotKnown, {{"fields", fields.text("answer")}}),
                messages::kUseSameDifferentCannotTell);
  verdict.answer = *answer;
  if ((verdict.answer == Answer::new_individual) != verdict.other.empty())
    throw Error(ErrorKind::bad_input, fields.item(),
                verdict.other.empty() ? messages::kSecondCaptureIsMissing : messages::kNewIsAboutOneCapture);
  if (verdict.capture == verdict.other)
    throw Error(ErrorKind::bad_input, fields.item(), messages::kCaptureIsComparedWithItself,
                messages::kNameTwoCaptures);
  verdict.reason = fields.long_text("reason");
  verdict.evidence = evidence_of(fields.any("evidence"));
  verdict.in_spite_of = objections_in(fields, "in_spite_of");
  verdict.blind = fields.flag("blind");
  verdict.planted = fields.flag("planted");
  for (const Json& settled : fields.any("settles")) {
    if (!settled.is_string() || !is_uuid7(settled.get<std::string>()))
      throw Error(ErrorKind::bad_input, fields.item(), messages::kFieldSettlesHoldsWhatIs);
    verdict.settles.emplace_back(settled.get<std::string>());
  }
}

}  // namespace evet
