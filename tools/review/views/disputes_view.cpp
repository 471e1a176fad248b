#include <algorithm>
#include <map>
#include <set>

#include "matcher/base/error.h"
#include "tools/review/capture_words.h"
#include "tools/review/dispute_parties.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/verdicts/labels.h"
#include "tools/verdicts/verdict_reason.h"
#include "tools/words/in_words.h"
#include "tools/words/picture_questions.h"

namespace evet::review {
namespace {

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
          {"reason", reason_shown(verdict.stamp.actor, verdict.what)},
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
  nlohmann::json set_aside = nlohmann::json::array();
  for (const SetAside& one : who.set_aside)
    set_aside.push_back(
        in_words(messages::kEntryCannotBeRead, {{"entry", one.entry.value}, {"why", one.why}}));
  return {{"disputes", list},
          {"position", position},
          {"picture_questions", picture_questions(who, Names(who))},
          {"shared_labels", shared_labels(who)},
          {"set_aside", set_aside}};
}

}  // namespace evet::review
