// An evening as the page sees it.
#include <algorithm>

#include "tools/intake/intake_night.h"
#include "tools/intake/sheet.h"
#include "tools/review/evening.h"

namespace evet::review {
namespace {

using Json = nlohmann::json;

Json json_of(const DraftPhoto& photo, const std::map<PhotoId, Likely>& likely,
             const std::map<PhotoId, bool>& tried) {
  Json notes = Json::array();
  for (const QualityNote& note : photo.notes)
    notes.push_back({{"sentence", note.sentence}, {"blocks", note.blocks}});
  Json out = {{"name", photo.name},
              {"from", photo.from},
              {"id", photo.id.value},
              {"bytes", photo.bytes},
              {"modified", photo.modified_ms},
              {"taken_at", photo.taken_at},
              {"left_out", photo.left_out},
              {"judged", photo.judged},
              {"usable", photo.usable},
              {"notes", std::move(notes)},
              {"likely", nullptr},
              {"looking", photo.usable && !tried.contains(photo.id)}};
  if (const auto at = likely.find(photo.id); at != likely.end())
    out["likely"] = {{"individual", at->second.individual},
                     {"capture", at->second.capture},
                     {"photo", at->second.best_photo},
                     {"probability", at->second.probability},
                     {"new_probability", at->second.new_probability},
                     {"advice", at->second.advice}};
  return out;
}

Json json_of(const std::vector<CellFault>& faults) {
  Json out = Json::array();
  for (const CellFault& fault : faults)
    out.push_back({{"capture", fault.capture},
                   {"photo", fault.photo},
                   {"column", fault.column},
                   {"sentence", fault.sentence}});
  return out;
}

Json json_of(const DraftCheck& check) {
  return {{"faults", json_of(check.faults)}, {"asks", json_of(check.asks)},
          {"noticed", check.noticed},        {"captures", check.captures},
          {"photos", check.photos},          {"photos_known", check.photos_known}};
}

}  // namespace

Json Evening::draft_json(const Proposed& proposed) const {
  const Draft& draft = folder_.draft();
  Json photos = Json::array(), captures = Json::array(), common = Json::object();
  std::size_t judged = 0, here = 0;
  for (const DraftPhoto& photo : draft.photos) {
    photos.push_back(json_of(photo, likely_, tried_));
    here += photo.left_out ? 0 : 1;
    judged += !photo.left_out && photo.judged ? 1 : 0;
  }
  for (const DraftCapture& capture : draft.captures) {
    Json holds = Json::object();
    for (const std::string& column : sheet_columns())
      if (column != "photo" && column != "capture")
        holds[column] = cell_of(draft, proposed, capture.key, column);
    captures.push_back({{"key", capture.key},
                        {"label", label_of(draft, proposed, capture.key)},
                        {"photos", capture.photos},
                        {"by_hand", capture.by_hand},
                        {"nothing_caught", capture.nothing_caught},
                        {"cells", capture.cells},
                        {"holds", std::move(holds)}});
  }
  for (const std::string& column : sheet_columns())
    if (column != "photo")
      common[column] = {{"text", cell_of(draft, proposed, {}, column)},
                        {"proposed", !draft.common.contains(column)}};
  return {{"revision", draft.revision},
          {"gap_seconds", draft.gap_seconds},
          {"photos", std::move(photos)},
          {"captures", std::move(captures)},
          {"common", std::move(common)},
          {"judged", judged},
          {"photos_here", here},
          {"warnings", folder_.warnings()},
          {"sheet", sheet_name(draft, proposed)}};
}

Json Evening::json(Catalogue& catalogue, const std::string& reader, bool local) {
  const std::lock_guard lock(mutex_);
  const Draft& draft = folder_.draft();
  const Proposed proposed = proposed_for(draft, catalogue, reader, today_text(env_));
  const auto newest = catalogue.ledger({.limit = 1, .newest_first = true});
  const std::string made_of = std::to_string(draft.revision) + " " + reader + " " + today_text(env_) + " " +
                              (newest.empty() ? "" : newest.front().entry.id.value);
  if (check_.made_of != made_of)
    check_.answer = check_draft(draft, proposed, catalogue, env_), check_.made_of = made_of;
  Json out = draft_json(proposed);
  out["check"] = json_of(check_.answer);
  out["taking"] = {{"running", taking_.running}, {"stage", taking_.stage},   {"done", taking_.done},
                   {"all", taking_.all},         {"failed", taking_.failed}, {"outcome", taking_.outcome}};
  out["piece_bytes"] = kPieceBytes;
  const std::filesystem::path folder = local ? catalogue_ : catalogue_.filename();
  out["folder"] = folder.string();
  out["watched"] = {{"folder", (folder / "incoming" / "drop").string()},
                    {"there", watched_.there()},
                    {"refused", watched_.refused()}};
  out["photos_folder"] = (folder / "incoming" / "photos").string();
  out["sheets_folder"] = (folder / "incoming" / "sheets").string();
  if (!local && out["taking"]["outcome"].is_object()) out["taking"]["outcome"].erase("sheet");
  return out;
}

}  // namespace evet::review
