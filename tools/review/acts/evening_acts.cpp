// What is done to an evening before it is taken in. Nothing here writes to the ledger but take_night(), and that
// as the command does.
#include <charconv>

#include "matcher/base/error.h"
#include "tools/review/acts/acts.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::size_t kMostCells = 5000;

std::vector<std::string> photos_in(const nlohmann::json& body) {
  const auto list = body.find("photos");
  if (list == body.end() || !list->is_array() || list->empty() || list->size() > kMostDraftPhotos)
    throw Error(ErrorKind::bad_input, "field 'photos'", messages::kIsNotListOfPhotos);
  std::vector<std::string> names;
  for (const auto& one : *list) names.push_back(text_of({{"photo", one}}, "photo"));
  return names;
}

std::int64_t count_in_query(const Call& call, const char* name) {
  const std::string text = call.query(name);
  std::int64_t number = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (status != std::errc() || end != text.data() + text.size() || number < 0)
    throw Error(ErrorKind::bad_input, in_words(messages::kFieldOfPhoto, {{"field", std::string(name)}}),
                messages::kIsNotNumber);
  return number;
}

}  // namespace

Response take_piece(Call& call) {
  person(call.reader);
  Piece piece;
  piece.upload = call.query("upload"), piece.name = call.query("name");
  constexpr std::size_t kLongest = 400;
  if (piece.upload.empty() || piece.upload.size() > kLongest || piece.name.size() > kLongest)
    throw Error(ErrorKind::bad_input, photo_item(in_quotes(piece.name)), messages::kIsNotSentAsPage);
  piece.at = static_cast<std::size_t>(count_in_query(call, "at"));
  piece.size = static_cast<std::size_t>(count_in_query(call, "size"));
  piece.modified_ms = count_in_query(call, "modified");
  return json_answer(call.desk.evening().take_piece(piece, call.bytes));
}

Response write_cells(Call& call) {
  person(call.reader);
  const auto list = call.body.find("cells");
  if (list == call.body.end() || !list->is_array() || list->empty() || list->size() > kMostCells)
    throw Error(ErrorKind::bad_input, "field 'cells'", messages::kIsNotListOfCells);
  call.desk.evening().change([&](Draft& draft) {
    for (const auto& cell : *list)
      write_cell(draft, text_of(cell, "capture"), text_of(cell, "column"),
                 text_of(cell, "text", kLongestCell));
  });
  return evening_view(call);
}

Response move_photos(Call& call) {
  person(call.reader);
  const std::vector<std::string> photos = photos_in(call.body);
  const std::string to = text_of(call.body, "to");
  call.desk.evening().change([&](Draft& draft) { evet::move_photos(draft, photos, to); });
  return evening_view(call);
}

Response set_gap(Call& call) {
  person(call.reader);
  const auto at = call.body.find("seconds");
  if (at == call.body.end() || !at->is_number_integer() || at->get<std::int64_t>() < 0 ||
      at->get<std::int64_t>() > 1'000'000)
    throw Error(ErrorKind::bad_input, "field 'seconds'", messages::kIsNotNumberOfSeconds);
  call.desk.evening().change([&](Draft& draft) { evet::set_gap(draft, at->get<int>()); });
  return evening_view(call);
}

Response leave_out(Call& call) {
  person(call.reader);
  const std::vector<std::string> photos = photos_in(call.body);
  const bool out = flag_in(call.body, "out");
  call.desk.evening().change([&](Draft& draft) { evet::leave_out(draft, photos, out); });
  return evening_view(call);
}

Response remove_photos(Call& call) {
  person(call.reader);
  call.desk.evening().remove(photos_in(call.body));
  return evening_view(call);
}

Response nothing_caught(Call& call) {
  person(call.reader);
  const bool nothing = flag_in(call.body, "nothing");
  call.desk.evening().change([&](Draft& draft) { set_nothing_caught(draft, nothing); });
  return evening_view(call);
}

Response watch_folder(Call& call) {
  person(call.reader);
  call.desk.evening().watch();
  return evening_view(call);
}

Response take_night(Call& call) {
  const Actor reader = person(call.reader);
  const std::string in_spite = call.body.contains("in_spite") ? text_of(call.body, "in_spite", 1000) : "";
  {
    const std::lock_guard lock(call.desk.mutex);
    call.desk.evening().take_night(call.desk.catalogue, reader, in_spite);
  }
  return evening_view(call);
}

}  // namespace evet::review
