#include <openssl/evp.h>

#include "matcher/base/error.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/photo_work.h"
#include "matcher/photo/encode.h"
#include "tools/review/messages.h"
#include "tools/review/midline_points.h"
#include "tools/review/views/views.h"
#include "tools/verdicts/midline_on_body.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"

namespace evet::review {
namespace {

std::string base64(const Bytes& bytes) {
  std::string out((bytes.size() + 2) / 3 * 4 + 1, '\0');
  const int length =
      EVP_EncodeBlock(reinterpret_cast<unsigned char*>(out.data()),
                      reinterpret_cast<const unsigned char*>(bytes.data()), static_cast<int>(bytes.size()));
  out.resize(static_cast<std::size_t>(length));
  return out;
}

}  // namespace

// Nothing is written, and no verdict waits for it: the photo alone is read under the lock.
Response strip_along(Call& call) {
  const std::string id = call.part(2);
  if (!is_photo_id(id)) throw Error(ErrorKind::bad_input, "photo", messages::kIsNotPhotosIdentifier);
  const std::vector<cv::Point2d> midline = midline_of(call.query("points"));
  Bytes file;
  {
    const std::lock_guard lock(call.desk.mutex);
    if (call.desk.catalogue.captures_with_photo(PhotoId(id)).empty())
      throw Error(ErrorKind::not_found, photo_item(id), messages::kIsNotInCatalogue);
    file = call.desk.catalogue.read_photo(PhotoId(id));
  }
  const Examined examined = examine_photo(file, in_words(messages::kThePhoto), examine_options(midline));
  nlohmann::json notes = nlohmann::json::array(), objections = nlohmann::json::array();
  for (const QualityNote& note : examined.belly.notes) notes.push_back(note.sentence);
  for (const Against& one : objections_to_midline(file, {}, in_words(messages::kThePhoto), midline))
    objections.push_back({{"code", one.objection.code}, {"sentence", one.objection.sentence}});
  const auto& strip = examined.belly.strip;
  return json_answer(
      {{"strip", strip ? nlohmann::json(base64(encode_jpeg(strip->bgr, 88))) : nlohmann::json()},
       {"usable", examined.belly.usable()},
       {"notes", notes},
       {"objections", objections}});
}

}  // namespace evet::review
