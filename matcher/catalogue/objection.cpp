#include "matcher/catalogue/objection.h"

#include "matcher/base/error.h"
#include "matcher/catalogue/fields.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

using Json = nlohmann::json;
constexpr size_t kMost = 50;

}  // namespace

void put(Json& object, const char* key, const std::vector<Objection>& objections) {
  for (const Objection& one : objections) {
    Json entry{{"code", one.code}, {"sentence", one.sentence}};
    put(entry, "reason", one.reason);
    object[key].push_back(std::move(entry));
  }
}

std::vector<Objection> objections_in(const Fields& fields, const char* key) {
  const Json& list = fields.any(key);
  if (list.is_null()) return {};
  if (!list.is_array() || list.size() > kMost)
    throw Error(ErrorKind::bad_input, fields.item(), Message(messages::kFieldIsNoListOf, {{"key", key}}));
  std::vector<Objection> out;
  for (const Json& entry : list) {
    const Fields one(entry, fields.item());
    out.push_back({one.text("code"), one.long_text("sentence"), one.long_text("reason")});
  }
  return out;
}

}  // namespace evet
