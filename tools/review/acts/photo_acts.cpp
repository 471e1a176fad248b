// What readers say of photos: a midline drawn, a photo set aside, a blind judgement before a second reading.
#include <algorithm>
#include <optional>

#include "matcher/base/error.h"
#include "matcher/catalogue/photo_work.h"
#include "tools/review/acts/acts.h"
#include "tools/review/acts/say_once.h"
#include "tools/review/messages.h"
#include "tools/review/midline_points.h"
#include "tools/verdicts/midline_on_body.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

// The photo, which must be the capture's.
PhotoTaken photo_in(Call& call) {
  const PhotoId photo = photo_of(call.body, "photo");
  const CaptureId capture = capture_of(call.body, "capture");
  return call.desk.catalogue.photo(photo, capture);
}

}  // namespace

namespace {

// Writes what examining the photo along the line gives, and says what the page shows of it.
nlohmann::json say_midline(Call& call, const Actor& reader, const PhotoTaken& taken,
                           const std::vector<cv::Point2d>& midline, const Bytes& file, Reexamined said_of,
                           const std::optional<QualityNote>& note) {
  const Examined examined = examine_photo(file, taken.name, examine_options(midline));
  keep_in_cache(call.desk.catalogue, taken.photo, midline, examined);
  said_of.photo = taken.photo;
  said_of.examination = examination_of(examined, midline);
  if (note) said_of.examination.notes.push_back(*note);
  const Examination examination = said_of.examination;
  nlohmann::json said = say_once(call, reader, {std::move(said_of)});
  call.desk.pictures.forget(taken.photo);
  said["usable"] = examination.usable;
  said["notes"] = nlohmann::json::array();
  for (const QualityNote& one : examination.notes) said["notes"].push_back(one.sentence);
  return said;
}

}  // namespace

nlohmann::json draw_midline(Call& call) {
  const Actor reader = person(call.reader);
  const PhotoTaken taken = photo_in(call);
  const auto points = call.body.find("points");
  if (points == call.body.end() || !points->is_array())
    throw Error(ErrorKind::bad_input, "field 'points'", messages::kIsNotMidline, messages::kMidlineWanted);
  std::vector<cv::Point2d> given;
  for (const auto& point : *points) {
    if (!point.is_array() || point.size() != 2 || !point[0].is_number() || !point[1].is_number())
      throw Error(ErrorKind::bad_input, "field 'points'", messages::kPointIsNotTwoNumbers);
    given.emplace_back(point[0].get<double>(), point[1].get<double>());
  }
  const std::vector<cv::Point2d> midline = midline_of(given);
  const Bytes file = call.desk.catalogue.read_photo(taken.photo);
  const std::vector<std::string> shown = shown_in(call.body);
  Reexamined said{taken.photo, {}};
  said.in_spite_of = overrule(objections_to_midline(file, taken.capture, taken.name, midline),
                              reason_in(call.body), &shown, photo_item(in_quotes(taken.name)), kSayWhy);
  return say_midline(call, reader, taken, midline, file, std::move(said), {});
}

nlohmann::json turn_strip(Call& call) {
  const Actor reader = person(call.reader);
  const PhotoTaken taken = photo_in(call);
  const Bytes file = call.desk.catalogue.read_photo(taken.photo);
  std::vector<cv::Point2d> line = taken.examination.midline;
  if (line.empty()) {
    const Examined found = examine_photo(file, taken.name, examine_options({}));
    const double full = decode_photo(file, taken.name, ExamineOptions{}.decode).full_per_px;
    constexpr std::size_t kEvery = 4;  // of 65 points: a belly bends no quicker
    for (std::size_t i = 0; i < found.belly.shape.midline.size(); i += kEvery)
      line.push_back(found.belly.shape.midline[i] * full);
  }
  if (line.empty())
    throw Error(ErrorKind::conflict, photo_item(in_quotes(taken.name)), messages::kNoBellyWasFoundIn,
                messages::kDrawMidlineOn);
  std::reverse(line.begin(), line.end());
  return say_midline(call, reader, taken, midline_of(line), file, {taken.photo, {}},
                     QualityNote{"turned", in_words(messages::kTurnedBy, {{"reader", reader.name}}), false});
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
      throw Error(ErrorKind::conflict, photo_item(in_quotes(taken.name)), messages::kThereIsNoBellyIn,
                  messages::kDrawMidlineOn);
  } else {
    const std::string reason = reason_in(call.body);
    examination.notes.push_back({"set_aside",
                                 in_words(reason.empty() ? messages::kSetAsideBy : messages::kSetAsideByFor,
                                          {{"reader", reader.name}, {"reason", reason}}),
                                 true});
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
