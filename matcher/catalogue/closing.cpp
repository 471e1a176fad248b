#include "matcher/catalogue/closing.h"

#include <array>
#include <string>

#include "matcher/base/error.h"
#include "matcher/catalogue/fields.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

constexpr std::array<const char*, 3> kNames{"no_animal", "not_identifiable", "same_capture"};
constexpr std::array kWords{messages::kClosedNoAnimal, messages::kClosedNotIdentifiable,
                            messages::kClosedSameCapture};

}  // namespace

const char* name(ClosedAs as) {
  return kNames[static_cast<size_t>(as)];
}

std::optional<ClosedAs> closed_as_named(const std::string& text) {
  for (size_t i = 0; i < kNames.size(); ++i)
    if (text == kNames[i]) return static_cast<ClosedAs>(i);
  return std::nullopt;
}

const char* words(ClosedAs as) {
  static const std::array said{Message(kWords[0]).words(), Message(kWords[1]).words(),
                               Message(kWords[2]).words()};  // a language once chosen stays
  return said[static_cast<size_t>(as)].c_str();
}

void to_json(nlohmann::json& json, const Closing& closing) {
  json = {{"capture", closing.capture.value}, {"as", name(closing.as)}};
  put(json, "other", closing.other.value);
  put(json, "reason", closing.reason);
  put(json, "in_spite_of", closing.in_spite_of);
}

void from_json(const nlohmann::json& json, Closing& closing) {
  const Fields fields(json, "closing entry");
  closing.capture = CaptureId(fields.text("capture"));
  closing.other = CaptureId(fields.text_or_empty("other"));
  const auto as = closed_as_named(fields.text("as"));
  if (!as)
    throw Error(ErrorKind::bad_input, fields.item(),
                Message(messages::kAsIsWhichIsNot, {{"fields", fields.text("as")}}),
                messages::kUseNoAnimalNotIdentifiable);
  closing.as = *as;
  if ((closing.as == ClosedAs::same_capture) == closing.other.empty())
    throw Error(ErrorKind::bad_input, fields.item(),
                closing.other.empty() ? messages::kCaptureIsSameAsIs : messages::kAnotherCaptureIsNamedAnd);
  if (closing.capture == closing.other)
    throw Error(ErrorKind::bad_input, fields.item(), messages::kCaptureIsSaidBeSame,
                messages::kNameTwoCaptures);
  closing.reason = fields.long_text("reason");
  closing.in_spite_of = objections_in(fields, "in_spite_of");
}

}  // namespace evet
