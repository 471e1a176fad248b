// What readers say of photos: a midline drawn, a photo set aside, a blind judgement before a second reading.
#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "matcher/catalogue/photo_work.h"
#include "tools/review/acts/acts.h"
#include "tools/review/acts/say_once.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::size_t kMostPoints = 64;

bool flag_in(const nlohmann::json& body, const char* field) {
  const auto at = body.find(field);
  if (at == body.end() || !at->is_boolean())
    throw Error(ErrorKind::bad_input, std::string("field '") + field + "'", "it is neither true nor false");
  return at->get<bool>();
}

// The photo, which must be the capture's.
PhotoTaken photo_in(Call& call) {
  const PhotoId photo = photo_of(call.body, "photo");
  const CaptureId capture = capture_of(call.body, "capture");
  return call.desk.catalogue.photo(photo, capture);
}

}  // namespace

nlohmann::json draw_midline(Call& call) {
  const Actor reader = person(call.reader);
  const PhotoTaken taken = photo_in(call);
  const auto points = call.body.find("points");
  if (points == call.body.end() || !points->is_array() || points->size() < 2 || points->size() > kMostPoints)
    throw Error(ErrorKind::bad_input, "field 'points'", "it is not a midline",
                "draw 2 to " + std::to_string(kMostPoints) + " points, throat fold first, vent last");
  std::vector<cv::Point2d> midline;
  for (const auto& point : *points) {
    if (!point.is_array() || point.size() != 2 || !point[0].is_number() || !point[1].is_number())
      throw Error(ErrorKind::bad_input, "field 'points'", "a point is not two numbers");
    // Tenths of a pixel: what a hand can mean, and the same text again on every machine.
    const auto tenth = [](double x) { return std::round(std::clamp(x, -1e5, 1e5) * 10) / 10; };
    midline.emplace_back(tenth(point[0].get<double>()), tenth(point[1].get<double>()));
  }
  const Examined examined =
      examine_photo(call.desk.catalogue.read_photo(taken.photo), taken.name, examine_options(midline));
  keep_in_cache(call.desk.catalogue, taken.photo, midline, examined);
  const Examination examination = examination_of(examined, midline);
  nlohmann::json said = say_once(call, reader, {Reexamined{taken.photo, examination}});
  call.desk.pictures.forget(taken.photo);
  said["usable"] = examination.usable;
  said["notes"] = nlohmann::json::array();
  for (const QualityNote& note : examination.notes) said["notes"].push_back(note.sentence);
  return said;
}

nlohmann::json set_usable(Call& call) {
  const Actor reader = person(call.reader);
  const PhotoTaken taken = photo_in(call);
  const bool usable = flag_in(call.body, "usable");
  Examination examination = taken.examination;
  std::erase_if(examination.notes, [](const QualityNote& note) { return note.measure == "set_aside"; });
  if (usable) {
    const bool blocked = std::any_of(examination.notes.begin(), examination.notes.end(),
                                     [](const QualityNote& note) { return note.blocks; });
    if (blocked)
      throw Error(ErrorKind::conflict, "photo " + evet::quoted(taken.name),
                  "there is no belly in it to match", "draw the midline on it");
  } else {
    const std::string reason = reason_in(call.body);
    examination.notes.push_back(
        {"set_aside", "set aside by " + reader.name + (reason.empty() ? "" : ": " + reason), true});
  }
  examination.usable = usable;
  return say_once(call, reader, {Reexamined{taken.photo, examination}});
}

nlohmann::json read_photos(Call& call) {
  const Actor reader = person(call.reader);
  const CaptureId capture = known_capture(call, capture_of(call.body, "capture")).id;
  return say_once(call, reader,
                  {Reading{.capture = capture,
                           .usable = flag_in(call.body, "usable"),
                           .reason = reason_in(call.body),
                           .blind = true}});
}

}  // namespace evet::review
