#include "matcher/catalogue/reading.h"

#include "matcher/catalogue/fields.h"

namespace evet {

void to_json(nlohmann::json& json, const Reading& reading) {
  json = {{"capture", reading.capture.value}, {"usable", reading.usable}};
  put(json, "photo", reading.photo.value);
  put(json, "reason", reading.reason);
  put_flag(json, "blind", reading.blind);
}

void from_json(const nlohmann::json& json, Reading& reading) {
  const Fields fields(json, "reading entry");
  reading.capture = CaptureId(fields.text("capture"));
  reading.photo = PhotoId(fields.text_or_empty("photo"));
  reading.usable = fields.flag("usable");
  reading.reason = fields.long_text("reason");
  reading.blind = fields.flag("blind");
}

}  // namespace evet
