#include "matcher/base/error.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr int kThumbPx = 320, kPhotoPx = 1600;

Response picture_of(Call& call, int long_side_px) {
  const std::string& id = call.part(2);
  if (!is_photo_id(id))
    throw Error(ErrorKind::bad_input, photo_item(in_quotes(id)), messages::kIsNotPhotosIdentifier);
  Response response{.type = "image/jpeg", .body = call.desk.evening().picture(PhotoId(id), long_side_px)};
  response.headers["Cache-Control"] = "private, max-age=86400, immutable";  // named by its content
  return response;
}

}  // namespace

Response evening_view(Call& call) {
  const std::lock_guard lock(call.desk.mutex);
  return json_answer(call.desk.evening().json(call.desk.catalogue, call.reader, call.local));
}

Response evening_sheet(Call& call) {
  const std::lock_guard lock(call.desk.mutex);
  Response response{.type = "text/csv; charset=utf-8",
                    .body = call.desk.evening().sheet(call.desk.catalogue, call.reader)};
  response.headers["Content-Disposition"] = "attachment; filename=\"evening.csv\"";
  return response;
}

Response evening_thumb(Call& call) {
  return picture_of(call, kThumbPx);
}
Response evening_photo(Call& call) {
  return picture_of(call, kPhotoPx);
}

}  // namespace evet::review
