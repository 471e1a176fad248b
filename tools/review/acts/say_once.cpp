#include "tools/review/acts/say_once.h"

#include <algorithm>

namespace evet::review {
namespace {

// What a retry repeats word for word. The ranking on the table may have been made again in between, and once
// it is recorded other things speak against it.
nlohmann::json comparable(const std::string& body) {
  nlohmann::json json = nlohmann::json::parse(body);
  json.erase("evidence"), json.erase("in_spite_of"), json.erase("signed");
  return json;
}

}  // namespace

std::optional<EntryId> said_before(Call& call, const Actor& actor, const Body& body) {
  Catalogue& catalogue = call.desk.catalogue;
  const std::vector<ListedEntry> since =
      catalogue.ledger({.actor = actor.name, .after_position = position_of(call.body)});
  if (since.empty()) return std::nullopt;
  const Identities& who = catalogue.identities();
  const std::string kind = kind_of(body);
  const nlohmann::json said = comparable(body_text(body));
  for (const ListedEntry& one : since)
    if (one.entry.kind == kind && one.entry.actor.kind == actor.kind && who.in_force(one.entry.id) &&
        comparable(one.entry.body) == said)
      return one.entry.id;
  return std::nullopt;
}

nlohmann::json say_once(Call& call, const Actor& actor, const std::vector<Body>& bodies) {
  std::vector<Body> fresh;
  std::string entry;
  for (const Body& body : bodies) {
    if (const auto before = said_before(call, actor, body))
      entry = before->value;
    else
      fresh.push_back(body);
  }
  if (!fresh.empty()) entry = call.desk.catalogue.append(actor, fresh).back().id.value;
  return {{"entry", entry}, {"position", newest_position(call.desk.catalogue)}, {"again", fresh.empty()}};
}

}  // namespace evet::review
