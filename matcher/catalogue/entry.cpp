#include "matcher/catalogue/entry.h"

#include <nlohmann/json.hpp>
#include <type_traits>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "matcher/base/uuid.h"
#include "matcher/catalogue/canonical_json.h"
#include "matcher/catalogue/fields.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

using Json = nlohmann::json;

template <size_t Index = 0>
Body read_body(const std::string& kind, const Json& json) {
  if constexpr (Index == std::variant_size_v<Body>) {
    throw Error(ErrorKind::unsupported, "ledger", Message(messages::kEntriesOfKindAreNot, {{"kind", kind}}),
                messages::kUseNewerVersion);
  } else {
    using One = std::variant_alternative_t<Index, Body>;
    if (kind != One::kKind) return read_body<Index + 1>(kind, json);
    One body;
    from_json(json, body);
    return body;
  }
}

}  // namespace

const char* name(ActorKind kind) {
  return kind == ActorKind::person ? "person" : "program";
}

std::string kind_of(const Body& body) {
  return std::visit([](const auto& one) -> std::string { return std::decay_t<decltype(one)>::kKind; }, body);
}

std::string body_text(const Body& body) {
  return std::visit([](const auto& one) { return canonical_json(Json(one)); }, body);
}

Body body_of(const Entry& entry) {
  try {
    return read_body(entry.kind, read_json(entry.body));
  } catch (const Json::exception& error) {
    throw Error(ErrorKind::bad_input, "entry " + entry.id.value,
                Message(messages::kBodyCannotBeRead, {{"error", error.what()}}));
  } catch (const Error& error) {
    throw Error(error.kind(), "entry " + entry.id.value, error.what());
  }
}

std::string wrong_with_signing(const EntryId& id, const Actor& actor) {
  if (!is_uuid7(id.value)) return Message(messages::kIdIsNoUuid).words();
  if (id.value >= kIdBound) return Message(messages::kIdBeyondClocks).words();
  if (actor.name.size() > kShortText)
    return Message(messages::kActorTooLong, {{"bytes", kShortText}}).words();
  return {};
}

std::optional<Body> readable(const Entry& entry, std::string* why) {
  std::string wrong;
  try {
    Body body = body_of(entry);
    wrong = wrong_with_signing(entry.id, entry.actor);
    if (wrong.empty()) return body;
  } catch (const Error& error) {
    if (error.kind() == ErrorKind::unsupported) throw;
    wrong = error.reason().words();
  }
  if (why != nullptr) *why = wrong;
  return std::nullopt;
}

std::string hash_of(const Entry& entry) {
  // The body is canonical already and goes in as it stands, between keys in sorted order.
  std::string text = canonical_json({{"actor", entry.actor.name}, {"actor_kind", name(entry.actor.kind)}});
  text.back() = ',';
  text += "\"body\":" + entry.body + ",";
  text += canonical_json({{"device", entry.device.value},
                          {"id", entry.id.value},
                          {"kind", entry.kind},
                          {"prev", entry.prev},
                          {"seq", entry.seq},
                          {"time", entry.time}})
              .substr(1);
  return sha256_hex(text);
}

}  // namespace evet
