#include <algorithm>

#include "tools/review/second_reading.h"
#include "tools/review/views/views.h"

namespace evet::review {
namespace {

// Photos without their names, which may tell a label or a date.
nlohmann::json bare_photos(const CaptureState& capture) {
  nlohmann::json list = nlohmann::json::array();
  for (const PhotoState& photo : capture.photos)
    if (photo.usable) list.push_back(photo.photo.value);
  return list;
}

bool has_read(Catalogue& catalogue, const std::string& reader, const CaptureId& capture) {
  const Identities& who = catalogue.identities();
  for (const ListedEntry& one :
       catalogue.ledger({.kind = Reading::kKind, .capture = capture, .actor = reader}))
    if (who.in_force(one.entry.id)) return true;
  return false;
}

}  // namespace

nlohmann::json second_view(Call& call) {
  person(call.reader);  // a blind reading belongs to somebody
  Catalogue& catalogue = call.desk.catalogue;
  const auto pairs = pairs_to_read(catalogue, call.reader, call.desk.second_share);
  nlohmann::json out = {{"left", pairs.size()},
                        {"item", nullptr},
                        {"share", call.desk.second_share},
                        {"position", newest_position(catalogue)}};
  if (pairs.empty()) return out;
  const PairToRead& pair = pairs.front();
  const bool read = has_read(catalogue, call.reader, pair.capture);
  const Identities& who = catalogue.identities();
  nlohmann::json item = {{"capture", pair.capture.value},
                         {"photos", bare_photos(*who.capture(pair.capture))},
                         {"read", read},
                         {"candidate", nullptr}};
  if (read)
    item["candidate"] = {{"capture", pair.other.value}, {"photos", bare_photos(*who.capture(pair.other))}};
  out["item"] = item;
  return out;
}

}  // namespace evet::review
