#include "matcher/catalogue/photo_taken.h"

#include <array>
#include <cmath>
#include <limits>

#include "matcher/base/error.h"
#include "matcher/belly/midline_provider.h"
#include "matcher/catalogue/fields.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/quality_json.h"

namespace evet {
namespace {

using Json = nlohmann::json;

constexpr std::array<const char*, 4> kFormats{"jpeg", "png", "tiff", "heic"};

Json json_of(const Examination& examination) {
  Json json{{"usable", examination.usable}, {"quality", json_of(examination.quality)}};
  for (const QualityNote& note : examination.notes)
    json["notes"].push_back(
        {{"measure", note.measure}, {"sentence", note.sentence}, {"blocks", note.blocks}});
  put(json, "maker", examination.maker);
  for (const cv::Point2d& point : examination.midline) json["midline"].push_back({point.x, point.y});
  return json;
}

Examination examination_of(const Json& json) {
  const Fields fields(json, "examination");
  Examination examination;
  examination.usable = fields.flag("usable");
  if (const Json& quality = fields.any("quality"); !quality.is_null())
    examination.quality = quality_of(quality);
  for (const Json& entry : fields.any("notes")) {
    const Fields note(entry, "examination");
    examination.notes.push_back({note.text("measure"), note.long_text("sentence"), note.flag("blocks")});
  }
  examination.maker = fields.text_or_empty("maker");
  // A first bound, whatever the picture: coordinates_from_midline() holds them to the picture itself.
  if (fields.any("midline").size() > kMostMidlinePoints)
    throw Error(ErrorKind::bad_input, fields.item(),
                Message(messages::kMidlineHasPoints, {{"any", std::to_string(fields.any("midline").size())}}),
                Message(messages::kUseAtMost, {{"at_most", std::to_string(kMostMidlinePoints)}}));
  for (const Json& point : fields.any("midline")) {
    if (!point.is_array() || point.size() != 2 || !point[0].is_number() || !point[1].is_number())
      throw Error(ErrorKind::bad_input, fields.item(), messages::kMidlinePointIsNotPair);
    const cv::Point2d at(point[0].get<double>(), point[1].get<double>());
    if (!(std::abs(at.x) <= 2 * kLongestSide && std::abs(at.y) <= 2 * kLongestSide))
      throw Error(ErrorKind::bad_input, fields.item(), messages::kMidlinePointLiesOutsideAny);
    examination.midline.push_back(at);
  }
  return examination;
}

Json json_of(const PhotoHeader& header) {
  Json json{{"format", kFormats[static_cast<size_t>(header.format)]},
            {"width_px", header.width_px},
            {"height_px", header.height_px},
            {"orientation", header.orientation}};
  put(json, "taken_at", header.taken_at);
  put(json, "taken_at_offset", header.taken_at_offset);
  put_flag(json, "has_position", header.has_position);
  put(json, "camera", header.camera);
  return json;
}

PhotoHeader header_of(const Json& json) {
  const Fields fields(json, "photo header");
  PhotoHeader header;
  const std::string format = fields.text("format");
  size_t index = 0;
  while (index < kFormats.size() && format != kFormats[index]) ++index;
  if (index == kFormats.size())
    throw Error(ErrorKind::bad_input, fields.item(),
                Message(messages::kFormatIsNotKnown, {{"format", format}}), messages::kUseJpegPngTiffOr);
  header.format = static_cast<PhotoFormat>(index);
  header.width_px = static_cast<int>(fields.whole_between("width_px", 0, kLongestSide));
  header.height_px = static_cast<int>(fields.whole_between("height_px", 0, kLongestSide));
  header.orientation = static_cast<int>(fields.whole_between("orientation", 1, 8));
  if (const std::string at = fields.text_or_empty("taken_at"); !at.empty()) header.taken_at = at;
  if (const std::string offset = fields.text_or_empty("taken_at_offset"); !offset.empty())
    header.taken_at_offset = offset;
  header.has_position = fields.flag("has_position");
  header.camera = fields.text_or_empty("camera");
  return header;
}

}  // namespace

void to_json(Json& json, const PhotoTaken& photo) {
  json = {{"photo", photo.photo.value},
          {"capture", photo.capture.value},
          {"bytes", photo.bytes},
          {"header", json_of(photo.header)},
          {"examination", json_of(photo.examination)}};
  put(json, "name", photo.name);
}

void from_json(const Json& json, PhotoTaken& photo) {
  const Fields fields(json, "photo entry");
  photo.photo = PhotoId(fields.sha256("photo"));
  photo.capture = CaptureId(fields.text("capture"));
  photo.name = fields.text_or_empty("name", kLongText);
  photo.bytes = fields.whole_between("bytes", 0, std::numeric_limits<std::int64_t>::max());
  photo.header = header_of(fields.any("header"));
  photo.examination = examination_of(fields.any("examination"));
}

void to_json(Json& json, const Reexamined& reexamined) {
  json = {{"photo", reexamined.photo.value}, {"examination", json_of(reexamined.examination)}};
  put(json, "in_spite_of", reexamined.in_spite_of);
}
void from_json(const Json& json, Reexamined& reexamined) {
  const Fields fields(json, "examination entry");
  reexamined.photo = PhotoId(fields.text("photo"));
  reexamined.examination = examination_of(fields.any("examination"));
  reexamined.in_spite_of = objections_in(fields, "in_spite_of");
}

}  // namespace evet
