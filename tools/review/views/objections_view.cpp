#include "tools/verdicts/objections.h"

#include "matcher/base/error.h"
#include "matcher/base/uuid.h"
#include "tools/review/capture_words.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

CaptureId capture_in(const Call& call, const char* field, bool needed) {
  const std::string text = call.query(field);
  if (text.empty() && !needed) return {};
  if (!is_uuid7(text))
    throw Error(ErrorKind::bad_input, std::string("field '") + field + "'",
                Message(messages::kIsNotCapturesIdentifier, {{"text", in_quotes(text)}}));
  return CaptureId(text);
}

std::vector<Against> against_what_is_asked(Call& call) {
  const CaptureId capture = capture_in(call, "capture", true), other = capture_in(call, "other", false);
  if (const std::string as = call.query("as"); !as.empty()) {
    const auto closed = closed_as_named(as);
    if (!closed)
      throw Error(ErrorKind::bad_input, "field 'as'",
                  Message(messages::kClosesNothing, {{"as", in_quotes(as)}}));
    return objections_to(call.desk.catalogue, Closing{.capture = capture, .as = *closed, .other = other});
  }
  const auto answer = answer_named(call.query("answer"));
  if (!answer) throw Error(ErrorKind::bad_input, "field 'answer'", messages::kIsNone);
  return objections_to(call.desk.catalogue, Verdict{.capture = capture, .other = other, .answer = *answer});
}

}  // namespace

nlohmann::json objections_view(Call& call) {
  const std::vector<Against> found = against_what_is_asked(call);
  const Identities& who = call.desk.catalogue.identities();
  nlohmann::json list = nlohmann::json::array();
  for (const Against& one : found) {
    nlohmann::json names = nlohmann::json::array(), photos = nlohmann::json::array();
    for (const CaptureId& id : {one.capture, one.beside}) {
      const CaptureState* capture = who.capture(id);
      if (capture == nullptr) continue;
      // Of a capture by itself every photo: they may contradict each other, or show nothing.
      for (const PhotoState& photo : capture->photos) {
        if (!photo.usable && capture->usable()) continue;
        photos.push_back({{"photo", photo.photo.value}, {"strip", photo.usable}});
        names.push_back(display_name(capture->facts) + ", " + capture->facts.night);
        if (!one.beside.empty() || photos.size() == 2) break;
      }
    }
    list.push_back({{"code", one.objection.code},
                    {"sentence", one.objection.sentence},
                    {"capture", one.capture.value},
                    {"beside", one.beside.value},
                    {"names", names},
                    {"photos", photos}});
  }
  return {{"objections", list}};
}

}  // namespace evet::review
