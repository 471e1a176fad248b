#include <algorithm>
#include <map>
#include <set>

#include "matcher/base/error.h"
#include "tools/review/acts.h"
#include "tools/review/views.h"

namespace evet::review {
namespace {

const Said<Verdict>* find_verdict(const Statements& said, const EntryId& id) {
  for (const auto& verdict : said.verdicts)
    if (verdict.stamp.id == id) return &verdict;
  return nullptr;
}

nlohmann::json reading_json(const Said<Verdict>& verdict, const Identities& who) {
  const auto named = [&](const CaptureId& id) {
    const CaptureState* capture = who.capture(id);
    return capture == nullptr ? std::string() : display_name(capture->facts) + ", " + capture->facts.night;
  };
  return {{"entry", verdict.stamp.id.value},
          {"reader", verdict.stamp.actor.name},
          {"program", verdict.stamp.actor.kind == ActorKind::program},
          {"time", verdict.stamp.time},
          {"answer", name(verdict.what.answer)},
          {"capture", verdict.what.capture.value},
          {"other", verdict.what.other.value},
          {"names", {named(verdict.what.capture), named(verdict.what.other)}},
          {"reason", verdict.what.reason},
          {"blind", verdict.what.blind}};
}

nlohmann::json side_json(const CaptureState& capture, const Identities& who) {
  nlohmann::json photos = nlohmann::json::array();
  for (const PhotoState& photo : capture.photos)
    if (photo.usable) photos.push_back(photo.photo.value);
  nlohmann::json json = {{"capture", capture.id.value},
                         {"name", display_name(capture.facts)},
                         {"night", capture.facts.night},
                         {"facts", facts_json(capture.facts)},
                         {"photos", photos},
                         {"later", nlohmann::json::array()}};
  // Photos taken since of the individual it stands in may show what these two do not.
  if (capture.individual)
    for (const CaptureId& id : who.individual(*capture.individual)->captures) {
      const CaptureState& other = *who.capture(id);
      const auto photo = best_photo(other);
      if (id != capture.id && photo)
        json["later"].push_back(
            {{"capture", id.value}, {"night", other.facts.night}, {"photo", photo->value}});
    }
  return json;
}

// Readers who took part in a dispute, and the entries an adjudication of it may settle.
struct Parties {
  std::set<std::string> readers;
  std::set<EntryId> entries;
};
Parties parties_of(const Dispute& dispute, const Statements& said) {
  Parties out;
  for (const auto* list : {&dispute.against, &dispute.contested})
    for (const EntryId& id : *list) {
      out.entries.insert(id);
      const auto* verdict = find_verdict(said, id);
      if (verdict != nullptr && verdict->stamp.actor.kind == ActorKind::person)
        out.readers.insert(verdict->stamp.actor.name);
    }
  return out;
}

}  // namespace

nlohmann::json disputes_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const std::int64_t position = newest_position(catalogue);
  const Statements& said = catalogue.statements();
  const Identities& who = catalogue.identities();
  nlohmann::json list = nlohmann::json::array();
  for (const Dispute& dispute : who.disputes) {
    const CaptureState *a = who.capture(dispute.a), *b = who.capture(dispute.b);
    if (a == nullptr || b == nullptr) continue;
    if (b->facts.night > a->facts.night) std::swap(a, b);  // the younger stands in the capture's place
    const Parties parties = parties_of(dispute, said);
    nlohmann::json readings = nlohmann::json::array();
    for (const EntryId& id : parties.entries)
      if (const auto* verdict = find_verdict(said, id)) readings.push_back(reading_json(*verdict, who));
    nlohmann::json against = nlohmann::json::array(), contested = nlohmann::json::array();
    for (const EntryId& id : dispute.against) against.push_back(id.value);
    for (const EntryId& id : dispute.contested) contested.push_back(id.value);
    list.push_back({{"a", side_json(*a, who)},
                    {"b", side_json(*b, who)},
                    {"misfits", misfits(b->facts, a->facts)},
                    {"readings", readings},
                    {"against", against},
                    {"contested", contested},
                    {"known_identities", dispute.against.empty()},
                    {"took_part", parties.readers.contains(call.reader)}});
  }
  return {{"disputes", list}, {"position", position}};
}

nlohmann::json adjudicate(Call& call) {
  const Actor reader = person(call.reader);
  Catalogue& catalogue = call.desk.catalogue;
  Verdict verdict;
  verdict.capture = capture_of(call.body, "capture");
  verdict.other = capture_of(call.body, "other");
  const auto answer = answer_named(text_of(call.body, "answer"));
  if (!answer || *answer == Answer::new_individual)
    throw Error(ErrorKind::bad_input, "field 'answer'", "it settles nothing",
                "say same, different or cannot_tell");
  verdict.answer = *answer;
  verdict.reason = text_of(call.body, "reason", 1000);
  if (verdict.reason.empty())
    throw Error(ErrorKind::bad_input, "the reason", "it is empty", "say what decided it");
  const auto settles = call.body.find("settles");
  if (settles == call.body.end() || !settles->is_array() || settles->size() > 100)
    throw Error(ErrorKind::bad_input, "field 'settles'", "it is not a list of entries");
  for (const auto& one : *settles) verdict.settles.push_back(entry_of({{"entry", one}}, "entry"));

  const Statements& said = catalogue.statements();
  const Identities& who = catalogue.identities();
  std::set<EntryId> open;
  std::set<std::string> readers;
  for (const Dispute& dispute : who.disputes) {
    const Parties parties = parties_of(dispute, said);
    const bool meant = std::all_of(verdict.settles.begin(), verdict.settles.end(),
                                   [&](const EntryId& id) { return parties.entries.contains(id); });
    if (!meant) continue;
    open.insert(parties.entries.begin(), parties.entries.end());
    readers.insert(parties.readers.begin(), parties.readers.end());
  }
  if (readers.contains(reader.name))
    throw Error(ErrorKind::conflict, "reader " + reader.name, "is one of those who disagree",
                "let a reader decide who gave none of these verdicts");
  if (!said_before(call, reader, verdict) && (open.empty() || verdict.settles.empty()))
    throw Error(ErrorKind::conflict, "the dispute", "it has been settled or has changed since",
                "look at the disputes again");
  return say_once(call, reader, {verdict});
}

}  // namespace evet::review
