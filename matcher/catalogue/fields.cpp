#include "matcher/catalogue/fields.h"

#include <cmath>
#include <utility>

#include "matcher/base/error.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

using Json = nlohmann::json;

[[noreturn]] void wrong(const std::string& item, const char* key, const Message& right) {
  throw Error(ErrorKind::bad_input, item, Message(messages::kFieldIsMissingOrWrong, {{"key", key}}), right);
}

}  // namespace

bool is_sha256(const std::string& text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

Fields::Fields(const Json& object, std::string item) : object_(object), item_(std::move(item)) {
  if (!object.is_object()) throw Error(ErrorKind::bad_input, item_, messages::kIsNotJsonObject);
}

const Json& Fields::any(const char* key) const {
  static const Json kNull;
  const auto found = object_.find(key);
  return found == object_.end() ? kNull : *found;
}

std::string Fields::text(const char* key, size_t at_most) const {
  std::string value = text_or_empty(key, at_most);
  if (value.empty()) wrong(item_, key, messages::kTextIsNeeded);
  return value;
}

std::string Fields::text_or_empty(const char* key, size_t at_most) const {
  const Json& value = any(key);
  if (value.is_null()) return {};
  if (!value.is_string()) wrong(item_, key, messages::kTextIsNeeded);
  const auto& text = value.get_ref<const std::string&>();
  if (text.size() > at_most)
    throw Error(ErrorKind::bad_input, item_,
                Message(messages::kFieldTakesBytes, {{"key", key}, {"size", std::to_string(text.size())}}),
                Message(messages::kUseAtMost, {{"at_most", std::to_string(at_most)}}));
  return text;
}

std::string Fields::sha256(const char* key) const {
  std::string value = text(key);
  if (!is_sha256(value)) wrong(item_, key, messages::kDigitsAreNeeded);
  return value;
}

std::optional<double> Fields::number_if_any(const char* key) const {
  const Json& value = any(key);
  if (value.is_null()) return std::nullopt;
  if (!value.is_number()) wrong(item_, key, messages::kNumberIsNeeded);
  return value.get<double>();
}

double Fields::number(const char* key) const {
  const auto value = number_if_any(key);
  if (!value) wrong(item_, key, messages::kNumberIsNeeded);
  return *value;
}

std::int64_t Fields::whole(const char* key) const {
  const double value = number(key);
  if (value != std::floor(value) || std::abs(value) > 9007199254740992.0)
    wrong(item_, key, messages::kWholeNumberIsNeeded);
  return static_cast<std::int64_t>(value);
}

std::int64_t Fields::whole_between(const char* key, std::int64_t low, std::int64_t high) const {
  const std::int64_t value = whole(key);
  if (value < low || value > high)
    wrong(item_, key,
          Message(messages::kWholeNumberBetweenIsNeeded,
                  {{"low", std::to_string(low)}, {"high", std::to_string(high)}}));
  return value;
}

bool Fields::flag(const char* key) const {
  const Json& value = any(key);
  if (value.is_null()) return false;
  if (!value.is_boolean()) wrong(item_, key, messages::kTrueOrFalseIsNeeded);
  return value.get<bool>();
}

void put(Json& object, const char* key, const std::string& value) {
  if (!value.empty()) object[key] = value;
}
void put(Json& object, const char* key, const std::optional<double>& value) {
  if (value) object[key] = *value;
}
void put(Json& object, const char* key, const std::optional<std::string>& value) {
  if (value) object[key] = *value;
}
void put_flag(Json& object, const char* key, bool value) {
  if (value) object[key] = true;
}

}  // namespace evet
