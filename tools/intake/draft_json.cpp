// A draft as it lies on the disk. Each value is held to what the acts on a draft would have let in.
#include <algorithm>
#include <set>

#include "matcher/base/error.h"
#include "tools/intake/draft.h"
#include "tools/intake/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet {
namespace {

using Json = nlohmann::json;
constexpr int kVersion = 1;
constexpr std::size_t kMostNotes = 50;

[[noreturn]] void refuse(const Message& why) {
  throw Error(ErrorKind::bad_input, in_words(messages::kDraftOfAnEvening), why);
}
const Json& at(const Json& json, const char* field) {
  if (!json.is_object() || !json.contains(field)) refuse({messages::kNoFieldInDraft, {{"field", field}}});
  return json.at(field);
}
std::string text(const Json& json, const char* field) {
  const Json& value = at(json, field);
  if (!value.is_string()) refuse({messages::kDraftFieldNoText, {{"field", field}}});
  return value.get<std::string>();
}
bool flag(const Json& json, const char* field) {
  const Json& value = at(json, field);
  if (!value.is_boolean()) refuse({messages::kDraftFieldNoFlag, {{"field", field}}});
  return value.get<bool>();
}
std::int64_t whole(const Json& json, const char* field) {
  const Json& value = at(json, field);
  if (!value.is_number_integer() || value.get<std::int64_t>() < 0)
    refuse({messages::kDraftFieldNoNumber, {{"field", field}}});
  return value.get<std::int64_t>();
}
const Json& list(const Json& json, const char* field, std::size_t at_most) {
  const Json& value = at(json, field);
  if (!value.is_array() || value.size() > at_most) refuse({messages::kDraftFieldNoList, {{"field", field}}});
  return value;
}

Json json_of(const DraftPhoto& photo) {
  Json notes = Json::array();
  for (const QualityNote& note : photo.notes)
    notes.push_back({{"measure", note.measure}, {"sentence", note.sentence}, {"blocks", note.blocks}});
  return {{"name", photo.name},
          {"from", photo.from},
          {"id", photo.id.value},
          {"bytes", photo.bytes},
          {"modified_ms", photo.modified_ms},
          {"taken_at", photo.taken_at},
          {"left_out", photo.left_out},
          {"judged", photo.judged},
          {"usable", photo.usable},
          {"notes", std::move(notes)}};
}

DraftPhoto photo_from(const Json& json) {
  DraftPhoto photo;
  photo.name = text(json, "name"), photo.from = text(json, "from");
  if (photo.name != safe_photo_name(photo.name))
    refuse({messages::kDraftPhotoUnsafe, {{"photo", in_quotes(photo.name)}}});
  photo.id = PhotoId(text(json, "id"));
  if (photo.id.value.size() != 64 ||
      photo.id.value.find_first_not_of("0123456789abcdef") != std::string::npos)
    refuse({messages::kDraftPhotoNoId, {{"photo", in_quotes(photo.name)}}});
  photo.bytes = whole(json, "bytes"), photo.modified_ms = whole(json, "modified_ms");
  photo.taken_at = text(json, "taken_at");
  if (!photo.taken_at.empty() && clock_seconds(photo.taken_at) < 0) photo.taken_at.clear();
  photo.left_out = flag(json, "left_out"), photo.judged = flag(json, "judged"),
  photo.usable = flag(json, "usable");
  for (const Json& note : list(json, "notes", kMostNotes))
    photo.notes.push_back({text(note, "measure"), text(note, "sentence"), flag(note, "blocks")});
  return photo;
}

Json json_of(const DraftCapture& capture) {
  return {{"key", capture.key},
          {"photos", capture.photos},
          {"cells", capture.cells},
          {"by_hand", capture.by_hand},
          {"nothing_caught", capture.nothing_caught}};
}

Cells cells_from(const Json& json) {
  Cells cells;
  if (!json.is_object()) refuse(messages::kDraftNoCells);
  for (const auto& [column, value] : json.items()) {
    if (!value.is_string()) refuse({messages::kDraftCellNoText, {{"column", in_quotes(column)}}});
    check_cell(column, value.get<std::string>());
    cells[column] = value.get<std::string>();
  }
  return cells;
}

}  // namespace

void to_json(Json& json, const Draft& draft) {
  json = {{"version", kVersion},        {"revision", draft.revision},
          {"next_key", draft.next_key}, {"gap_seconds", draft.gap_seconds},
          {"common", draft.common},     {"photos", Json::array()},
          {"captures", Json::array()}};
  for (const DraftPhoto& photo : draft.photos) json["photos"].push_back(json_of(photo));
  for (const DraftCapture& capture : draft.captures) json["captures"].push_back(json_of(capture));
}

Draft draft_from(const Json& json) {
  if (whole(json, "version") != kVersion)
    throw Error(ErrorKind::unsupported, in_words(messages::kDraftOfAnEvening), messages::kDraftIsNewer);
  Draft draft;
  const std::int64_t gap = whole(json, "gap_seconds");
  set_gap(draft, static_cast<int>(std::min<std::int64_t>(gap, 1'000'000)));
  for (const Json& one : list(json, "photos", kMostDraftPhotos)) {
    DraftPhoto photo = photo_from(one);
    if (draft.photo(photo.name) != nullptr || draft.photo(photo.id) != nullptr)
      refuse(messages::kDraftPhotoTwice);
    draft.photos.push_back(std::move(photo));
  }
  std::set<std::string> placed, keys;
  for (const Json& one : list(json, "captures", kMostDraftPhotos)) {
    DraftCapture capture{.key = text(one, "key"), .photos = {}, .cells = {}};
    if (capture.key.empty() || capture.key.size() > 20 || !keys.insert(capture.key).second)
      refuse(messages::kDraftNoKey);
    for (const Json& name : list(one, "photos", kMostDraftPhotos)) {
      const DraftPhoto* photo = name.is_string() ? draft.photo(name.get<std::string>()) : nullptr;
      if (photo == nullptr || photo->left_out || !placed.insert(photo->name).second)
        refuse(messages::kDraftPhotoOfOther);
      capture.photos.push_back(photo->name);
    }
    capture.by_hand = flag(one, "by_hand"), capture.nothing_caught = flag(one, "nothing_caught");
    capture.cells = cells_from(at(one, "cells"));
    draft.captures.push_back(std::move(capture));
  }
  draft.common = cells_from(at(json, "common"));
  draft.next_key = static_cast<int>(std::min<std::int64_t>(whole(json, "next_key"), 1'000'000'000));
  while (keys.contains("k" + std::to_string(draft.next_key))) ++draft.next_key;
  leave_out(draft, {}, false);  // gathers what lies on no capture
  draft.revision = whole(json, "revision");
  return draft;
}

}  // namespace evet
