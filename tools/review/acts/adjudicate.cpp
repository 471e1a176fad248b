// A dispute decided by a reader who took no part in it.
#include <algorithm>
#include <set>

#include "matcher/base/error.h"
#include "tools/review/acts/acts.h"
#include "tools/review/acts/say_once.h"
#include "tools/review/capture_words.h"
#include "tools/review/dispute_parties.h"
#include "tools/review/messages.h"
#include "tools/verdicts/objections.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {

nlohmann::json adjudicate(Call& call) {
  const Actor reader = person(call.reader);
  Catalogue& catalogue = call.desk.catalogue;
  Verdict verdict;
  verdict.capture = capture_of(call.body, "capture");
  verdict.other = capture_of(call.body, "other");
  const auto answer = answer_named(text_of(call.body, "answer"));
  if (!answer || *answer == Answer::new_individual)
    throw Error(ErrorKind::bad_input, "field 'answer'", messages::kSettlesNothing,
                messages::kSaySameDifferentOrCannot);
  verdict.answer = *answer;
  verdict.reason = text_of(call.body, "reason", 1000);
  if (verdict.reason.empty())
    throw Error(ErrorKind::bad_input, in_words(messages::kTheReason), messages::kIsEmpty,
                messages::kSayWhatDecided);
  const auto settles = call.body.find("settles");
  if (settles == call.body.end() || !settles->is_array() || settles->size() > 100)
    throw Error(ErrorKind::bad_input, "field 'settles'", messages::kIsNotListOfEntries);
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
    throw Error(ErrorKind::conflict, reader_item(reader.name), messages::kIsOneOfThoseWho,
                messages::kLetReaderDecideWhoGave);
  if (!said_before(call, reader, verdict) && (open.empty() || verdict.settles.empty()))
    throw Error(ErrorKind::conflict, in_words(messages::kTheDispute), messages::kHasBeenSettledOrHas,
                messages::kLookAtDisputesAgain);
  if (!said_before(call, reader, verdict)) {
    const std::vector<std::string> shown = shown_in(call.body);
    verdict.in_spite_of =
        overrule(objections_to(catalogue, verdict), verdict.reason, &shown,
                 capture_item(in_quotes(display_name(known_capture(call, verdict.capture).facts))), kSayWhy);
  }
  return say_once(call, reader, {verdict});
}

}  // namespace evet::review
