#include "tools/review/acts/acts.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "tools/review/acts/say_once.h"
#include "tools/review/capture_words.h"
#include "tools/review/messages.h"
#include "tools/review/second_reading.h"
#include "tools/verdicts/objections.h"
#include "tools/verdicts/verdict_reason.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::size_t kMostAccepted = 500;

Answer answer_in(const nlohmann::json& body) {
  const std::string text = text_of(body, "answer");
  const auto answer = answer_named(text);
  if (!answer)
    throw Error(ErrorKind::bad_input, in_words(messages::kAnswerItem, {{"answer", in_quotes(text)}}),
                messages::kIsNone, messages::kSaySameDifferentCannotTell);
  return *answer;
}

std::shared_ptr<const RankedNight> table_of(Call& call) {
  const auto at = call.body.find("generation");
  if (at == call.body.end() || !at->is_number_integer()) return nullptr;
  return call.desk.ranked.generation(at->get<int>());
}

// People may have spoken since the ranking that the reader has on the table.
void refuse_overruled(Call& call, std::vector<RankedCapture> advised) {
  const Statements& said = call.desk.catalogue.statements();
  const Identities& who = call.desk.catalogue.identities();
  std::set<CaptureId> ids;
  for (RankedCapture& one : advised) {
    ids.insert(one.capture);
    if (one.advice != Advice::same) continue;
    Candidate& best = one.candidates.front();  // joined to others since, perhaps
    if (const CaptureState* shown = who.capture(CaptureId(best.individual.value)); shown && shown->individual)
      best.individual = *shown->individual;
  }
  std::map<CaptureId, PeopleSaid> people = people_said(said, who, ids);
  bind_to(people, advised);
  for (const RankedCapture& one : advised)
    if (one.advice == Advice::look)
      throw Error(ErrorKind::conflict, capture_item(display_name(who.capture(one.capture)->facts)),
                  messages::kPeopleHaveSpokenOfSince, messages::kLookAtNightAgainAnd);
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
      throw Error(ErrorKind::bad_input, capture_item(verdict.other.value),
                  messages::kCannotBeHeldAgainstItself);
  }
  if (call.body.contains("blind") && flag_in(call.body, "blind")) {
    // Whether the pair was planted is known here and never to the page.
    verdict.blind = true;
    verdict.planted = is_planted(call, verdict.capture, verdict.other);
  } else if (const auto table = table_of(call)) {
    const auto at = table->evidence.find(verdict.capture);
    if (at != table->evidence.end()) verdict.evidence = at->second;
  }
  if (!said_before(call, reader, verdict)) {
    const std::vector<std::string> shown = shown_in(call.body);
    verdict.in_spite_of =
        overrule(objections_to(call.desk.catalogue, verdict), verdict.reason, &shown,
                 capture_item(in_quotes(display_name(known_capture(call, verdict.capture).facts))), kSayWhy);
  }
  return say_once(call, reader, {verdict});
}

nlohmann::json close_capture(Call& call) {
  const Actor reader = person(call.reader);
  Closing closing;
  closing.capture = known_capture(call, capture_of(call.body, "capture")).id;
  const std::string as = text_of(call.body, "as");
  const auto known = closed_as_named(as);
  if (!known)
    throw Error(ErrorKind::bad_input, "field 'as'",
                Message(messages::kClosesNothing, {{"as", in_quotes(as)}}),
                messages::kSayNoAnimalNotIdentifiable);
  closing.as = *known;
  closing.reason = reason_in(call.body);
  if (closing.as == ClosedAs::same_capture) {
    closing.other = known_capture(call, capture_of(call.body, "other")).id;
    if (closing.other == closing.capture)
      throw Error(ErrorKind::bad_input, capture_item(closing.other.value), messages::kCannotBeSameAsItself);
  }
  if (!said_before(call, reader, closing)) {
    const std::vector<std::string> shown = shown_in(call.body);
    closing.in_spite_of =
        overrule(objections_to(call.desk.catalogue, closing), closing.reason, &shown,
                 capture_item(in_quotes(display_name(known_capture(call, closing.capture).facts))), kSayWhy);
  }
  return say_once(call, reader, {closing});
}

nlohmann::json accept_advice(Call& call) {
  const Actor reader = person(call.reader);
  const auto list = call.body.find("captures");
  if (list == call.body.end() || !list->is_array() || list->empty() || list->size() > kMostAccepted)
    throw Error(ErrorKind::bad_input, "field 'captures'", messages::kIsNotListOfCaptures,
                Message(messages::kName1, {{"most_accepted", std::to_string(kMostAccepted)}}));
  const auto table = table_of(call);
  if (!table)
    throw Error(ErrorKind::conflict, in_words(messages::kTheRanking), messages::kHasBeenMadeAgainSince,
                messages::kLookAtNightAgainAnd);
  std::vector<Body> bodies;
  std::vector<RankedCapture> advised;
  for (const auto& one : *list) {
    const CaptureState& capture = known_capture(call, capture_of({{"capture", one}}, "capture"));
    const auto ranked = table->captures.find(capture.id);
    if (ranked == table->captures.end() || ranked->second.advice == Advice::look)
      throw Error(ErrorKind::conflict, capture_item(display_name(capture.facts)),
                  messages::kProgramIsNotSureOf, messages::kLookAtYourself);
    if (capture.individual) continue;  // settled since, by a person or by this very request
    Verdict verdict{.capture = capture.id, .evidence = table->evidence.at(capture.id)};
    verdict.reason = in_words(messages::kAcceptedOnPage, {{"reader", reader.name}});
    verdict.answer = Answer::new_individual;
    if (ranked->second.advice == Advice::same) {
      verdict.answer = Answer::same;
      verdict.other = verdict.evidence.shown.front().capture;
    }
    advised.push_back(ranked->second);
    bodies.push_back(verdict);
  }
  refuse_overruled(call, std::move(advised));
  if (bodies.empty())
    return {{"entry", ""}, {"position", newest_position(call.desk.catalogue)}, {"again", true}};
  return say_once(call, {ActorKind::program, kProgramOnPage}, bodies);
}

nlohmann::json take_back(Call& call) {
  const Actor reader = person(call.reader);
  const EntryId target = entry_of(call.body, "target");
  const auto entry = call.desk.catalogue.entry(target);
  if (!entry) throw Error(ErrorKind::not_found, entry_item(target.value), messages::kIsNotInLedgerReview);
  const std::string& kind = entry->entry.kind;
  if (kind != Verdict::kKind && kind != Closing::kKind && kind != Reading::kKind &&
      kind != Reexamined::kKind && kind != Withdrawal::kKind)
    throw Error(ErrorKind::bad_input, entry_item(target.value),
                Message(messages::kIsNotUndoneHere, {{"kind", kind}}), messages::kCorrectSheetAndTakeIn);
  if (entry->entry.actor.kind == ActorKind::person && entry->entry.actor.name != reader.name)
    throw Error(ErrorKind::conflict, entry_item(target.value),
                Message(messages::kIsWhatSaid, {{"actor", entry->entry.actor.name}}),
                messages::kGiveYourOwnVerdictBeside);
  if (!call.desk.catalogue.identities().in_force(target))
    return {{"entry", target.value}, {"position", newest_position(call.desk.catalogue)}, {"again", true}};
  const nlohmann::json said = say_once(call, reader, {Withdrawal{target, reason_in(call.body)}});
  if (kind == Reexamined::kKind || kind == Withdrawal::kKind) call.desk.pictures.forget_all();
  return said;
}

}  // namespace evet::review
