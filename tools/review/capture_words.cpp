#include "tools/review/capture_words.h"

#include <algorithm>

#include "matcher/base/place.h"
#include "matcher/belly/note_words.h"
#include "tools/review/messages.h"
#include "tools/verdicts/sheet_misfits.h"
#include "tools/words/in_words.h"

namespace evet::review {

std::string display_name(const CaptureFacts& facts) {
  return facts.name.empty() ? in_words(messages::kCaptureWithoutAName) : facts.name;
}

std::string answer_in_words(Answer answer) {
  switch (answer) {
    case Answer::same:
      return in_words(messages::kAnsweredSame);
    case Answer::different:
      return in_words(messages::kAnsweredDifferent);
    case Answer::new_individual:
      return in_words(messages::kAnsweredNew);
    case Answer::cannot_tell:
      break;
  }
  return in_words(messages::kAnsweredCannotTell);
}

std::optional<PhotoId> best_photo(const CaptureState& capture) {
  for (const PhotoState& photo : capture.photos)
    if (photo.usable) return photo.photo;
  return std::nullopt;
}

nlohmann::json facts_json(const CaptureFacts& facts) {
  nlohmann::json json = facts;
  // Exact places stay in the catalogue; a screen beside a pond is easily photographed.
  json.erase("latitude"), json.erase("longitude");
  return json;
}

nlohmann::json photos_json(Catalogue& catalogue, const CaptureState& capture, bool with_notes) {
  nlohmann::json list = nlohmann::json::array();
  for (const bool usable : {true, false})
    for (const PhotoState& photo : capture.photos) {
      if (photo.usable != usable) continue;
      nlohmann::json json = {{"photo", photo.photo.value}, {"name", photo.name}, {"usable", photo.usable}};
      if (with_notes) {
        const PhotoTaken taken = catalogue.photo(photo.photo, capture.id);
        const bool upright = taken.header.orientation < 5;
        json["width"] = upright ? taken.header.width_px : taken.header.height_px;
        json["height"] = upright ? taken.header.height_px : taken.header.width_px;
        json["midline_drawn"] = !taken.examination.midline.empty();
        json["notes"] = nlohmann::json::array();
        for (const QualityNote& note : taken.examination.notes)
          json["notes"].push_back(shown_note(note, taken.examination.quality));
      }
      list.push_back(std::move(json));
    }
  return list;
}

std::vector<std::string> misfits(const CaptureFacts& earlier, const CaptureFacts& later) {
  std::vector<std::string> out;
  for (const Misfit& misfit : sheet_misfits(earlier, later)) out.push_back(misfit.says.words());
  if (!earlier.site.empty() && !later.site.empty() &&
      (earlier.site != later.site ||
       (!earlier.pond.empty() && !later.pond.empty() && earlier.pond != later.pond)))
    out.push_back("place: " + place_of(earlier.site, earlier.pond) + " on " + earlier.night + ", " +
                  place_of(later.site, later.pond) + " on " + later.night);
  return out;
}

}  // namespace evet::review
