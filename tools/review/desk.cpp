#include "tools/review/desk.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/base/uuid.h"
#include "matcher/catalogue/messages.h"
#include "tools/intake/messages.h"
#include "tools/review/messages.h"
#include "tools/words/items.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::size_t kLongestCode = 40;

const nlohmann::json& field_of(const nlohmann::json& body, const char* field) {
  const auto at = body.find(field);
  if (at == body.end())
    throw Error(ErrorKind::bad_input, std::string("field '") + field + "'", messages::kOtherHalfMissing);
  return *at;
}

template <class Id>
Id uuid_of(const nlohmann::json& body, const char* field) {
  const std::string text = text_of(body, field);
  if (!is_uuid7(text))
    throw Error(ErrorKind::bad_input, std::string("field '") + field + "'",
                Message(messages::kIsNoIdentifier, {{"text", in_quotes(text)}}));
  return Id(text);
}

}  // namespace

Desk::Desk(const std::filesystem::path& folder, Env& machine, int at_a_time)
    : env(machine),
      catalogue(Catalogue::open(folder, machine)),
      ranked(folder, machine, at_a_time),
      pictures(folder, machine),
      threads(at_a_time) {
  const auto first = catalogue.ledger({.limit = 1});
  if (!first.empty()) id = first.front().entry.id.value;
}

Evening& Desk::evening() {
  const std::lock_guard lock(evening_mutex_);
  if (!evening_) evening_ = std::make_unique<Evening>(catalogue.folder(), env, threads);
  return *evening_;
}

CaptureId Call::capture_at(std::size_t i) const {
  if (!is_uuid7(part(i)))
    throw Error(ErrorKind::bad_input, capture_item(in_quotes(part(i))),
                messages::kIsNotCapturesIdentifierReview);
  return CaptureId(part(i));
}

std::string Call::query(const std::string& name) const {
  const auto at = target.query.find(name);
  return at == target.query.end() ? std::string() : at->second;
}

bool flag_in(const nlohmann::json& body, const char* field) {
  const auto at = body.find(field);
  if (at == body.end() || !at->is_boolean())
    throw Error(ErrorKind::bad_input, std::string("field '") + field + "'", messages::kIsNeitherTrueNorFalse);
  return at->get<bool>();
}
std::string text_of(const nlohmann::json& body, const char* field, std::size_t at_most) {
  const nlohmann::json& value = field_of(body, field);
  if (!value.is_string())
    throw Error(ErrorKind::bad_input, std::string("field '") + field + "'", messages::kIsNotText);
  auto text = value.get<std::string>();
  if (text.size() > at_most)
    throw Error(ErrorKind::too_large, std::string("field '") + field + "'",
                Message(messages::kIsLongerThanBytes, {{"at_most", std::to_string(at_most)}}));
  if (std::any_of(text.begin(), text.end(), [](unsigned char c) { return c < 0x20 || c == 0x7f; }))
    throw Error(ErrorKind::bad_input, std::string("field '") + field + "'", messages::kHoldsControlCharacters,
                messages::kWriteOnOneLine);
  return text;
}

CaptureId capture_of(const nlohmann::json& body, const char* field) {
  return uuid_of<CaptureId>(body, field);
}
EntryId entry_of(const nlohmann::json& body, const char* field) {
  return uuid_of<EntryId>(body, field);
}

bool is_photo_id(const std::string& text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

PhotoId photo_of(const nlohmann::json& body, const char* field) {
  std::string text = text_of(body, field);
  if (!is_photo_id(text))
    throw Error(ErrorKind::bad_input, std::string("field '") + field + "'",
                messages::kIsNotPhotosIdentifierReview);
  return PhotoId(std::move(text));
}

std::int64_t position_of(const nlohmann::json& body) {
  const nlohmann::json& value = field_of(body, "after");
  if (!value.is_number_integer() || value.get<std::int64_t>() < 0)
    throw Error(ErrorKind::bad_input, "field 'after'", messages::kIsNotPositionInLedger);
  return value.get<std::int64_t>();
}

std::string reason_in(const nlohmann::json& body) {
  return body.contains("reason") ? text_of(body, "reason", 1000) : std::string();
}

std::vector<std::string> shown_in(const nlohmann::json& body) {
  const auto list = body.find("in_spite_of");
  if (list == body.end()) return {};
  if (!list->is_array() || list->size() > 50)
    throw Error(ErrorKind::bad_input, "field 'in_spite_of'", messages::kIsNotListOfCodes);
  std::vector<std::string> out;
  for (const auto& one : *list) out.push_back(text_of({{"code", one}}, "code"));
  return out;
}

const CaptureState& known_capture(Call& call, const CaptureId& id) {
  const CaptureState* found = call.desk.catalogue.identities().capture(id);
  if (found == nullptr)
    throw Error(ErrorKind::not_found, capture_item(id.value), messages::kIsNotInCatalogue);
  return *found;
}

bool is_reader_code(const std::string& text) {
  return !text.empty() && text.size() <= kLongestCode && text.front() != ' ' && text.back() != ' ' &&
         std::all_of(text.begin(), text.end(), [](unsigned char c) { return c >= 0x20 && c < 0x7f; });
}

Actor person(const std::string& reader) {
  if (!is_reader_code(reader))
    throw Error(ErrorKind::bad_input, reader_item(in_quotes(reader)), messages::kIsNotObserverCode,
                messages::kSignPlainly);
  return {ActorKind::person, reader};
}

std::int64_t newest_position(const Catalogue& catalogue) {
  const auto newest = catalogue.ledger({.limit = 1, .newest_first = true});
  return newest.empty() ? 0 : newest.front().position;
}

}  // namespace evet::review
