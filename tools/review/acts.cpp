#include "tools/review/acts.h"

#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "matcher/catalogue/photo_work.h"
#include "tools/evet/text.h"
#include "tools/review/second_reading.h"
#include "tools/review/views.h"

namespace evet::review {
namespace {

constexpr std::size_t kMostAccepted = 500, kMostPoints = 64;
constexpr const char* kProgramName = "evet review";

Answer answer_in(const nlohmann::json& body) {
  const std::string text = text_of(body, "answer");
  const auto answer = answer_named(text);
  if (!answer)
    throw Error(ErrorKind::bad_input, "answer " + evet::quoted(text), "it is none",
                "say same, different, cannot_tell or new");
  return *answer;
}

std::string reason_in(const nlohmann::json& body) {
  return body.contains("reason") ? text_of(body, "reason", 1000) : std::string();
}

const CaptureState& known_capture(Call& call, const CaptureId& id) {
  const CaptureState* found = call.desk.catalogue.identities().capture(id);
  if (found == nullptr)
    throw Error(ErrorKind::not_found, "capture " + id.value, "it is not in the catalogue");
  return *found;
}

std::shared_ptr<const RankedNight> table_of(Call& call) {
  const auto at = call.body.find("generation");
  if (at == call.body.end() || !at->is_number_integer()) return nullptr;
  return call.desk.ranked.generation(at->get<int>());
}

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

nlohmann::json give_verdict(Call& call) {
  const Actor reader = person(call.reader);
  Verdict verdict;
  verdict.capture = known_capture(call, capture_of(call.body, "capture")).id;
  verdict.answer = answer_in(call.body);
  verdict.reason = reason_in(call.body);
  if (verdict.answer != Answer::new_individual) {
    verdict.other = known_capture(call, capture_of(call.body, "other")).id;
    if (verdict.other == verdict.capture)
      throw Error(ErrorKind::bad_input, "capture " + verdict.other.value, "it cannot be held against itself");
  }
  if (call.body.value("blind", false)) {
    // Whether the pair was planted is known here and never to the page.
    verdict.blind = true;
    verdict.planted = is_planted(call, verdict.capture, verdict.other);
  } else if (const auto table = table_of(call)) {
    const auto at = table->evidence.find(verdict.capture);
    if (at != table->evidence.end()) verdict.evidence = at->second;
  }
  return say_once(call, reader, {verdict});
}

nlohmann::json accept_advice(Call& call) {
  const Actor reader = person(call.reader);
  const auto list = call.body.find("captures");
  if (list == call.body.end() || !list->is_array() || list->empty() || list->size() > kMostAccepted)
    throw Error(ErrorKind::bad_input, "field 'captures'", "it is not a list of captures",
                "name 1 to " + std::to_string(kMostAccepted));
  const auto table = table_of(call);
  if (!table)
    throw Error(ErrorKind::conflict, "the ranking", "it has been made again since the page showed it",
                "look at the night again and accept then");
  std::vector<Body> bodies;
  for (const auto& one : *list) {
    const CaptureState& capture = known_capture(call, capture_of({{"capture", one}}, "capture"));
    const auto ranked = table->captures.find(capture.id);
    if (ranked == table->captures.end() || ranked->second.advice == Advice::look)
      throw Error(ErrorKind::conflict, "capture " + display_name(capture.facts),
                  "the program is not sure of it", "look at it yourself");
    if (capture.individual) continue;  // settled since, by a person or by this very request
    Verdict verdict{.capture = capture.id, .evidence = table->evidence.at(capture.id)};
    verdict.reason = "accepted on the review page by " + reader.name;
    verdict.answer = Answer::new_individual;
    if (ranked->second.advice == Advice::same) {
      verdict.answer = Answer::same;
      verdict.other = verdict.evidence.shown.front().capture;
    }
    bodies.push_back(verdict);
  }
  if (bodies.empty())
    return {{"entry", ""}, {"position", newest_position(call.desk.catalogue)}, {"again", true}};
  return say_once(call, {ActorKind::program, kProgramName}, bodies);
}

nlohmann::json take_back(Call& call) {
  const Actor reader = person(call.reader);
  const EntryId target = entry_of(call.body, "target");
  const auto entry = call.desk.catalogue.entry(target);
  if (!entry) throw Error(ErrorKind::not_found, "entry " + target.value, "it is not in the ledger");
  const std::string& kind = entry->entry.kind;
  if (kind != Verdict::kKind && kind != Reading::kKind && kind != Reexamined::kKind &&
      kind != Withdrawal::kKind)
    throw Error(ErrorKind::bad_input, "entry " + target.value, "a " + kind + " is not undone here",
                "correct the sheet and take it in again");
  if (entry->entry.actor.kind == ActorKind::person && entry->entry.actor.name != reader.name)
    throw Error(ErrorKind::conflict, "entry " + target.value,
                "it is what " + entry->entry.actor.name + " said", "give your own verdict beside it");
  const std::vector<EntryId>& out = call.desk.catalogue.identities().out_of_force;
  if (std::binary_search(out.begin(), out.end(), target))
    return {{"entry", target.value}, {"position", newest_position(call.desk.catalogue)}, {"again", true}};
  const nlohmann::json said = say_once(call, reader, {Withdrawal{target, reason_in(call.body)}});
  if (kind == Reexamined::kKind || kind == Withdrawal::kKind) call.desk.pictures.forget_all();
  return said;
}

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
