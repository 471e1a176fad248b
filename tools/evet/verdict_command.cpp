#include <algorithm>
#include <ostream>
#include <set>

#include "matcher/base/error.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/report/messages.h"
#include "tools/verdicts/labels.h"
#include "tools/verdicts/objections.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/messages.h"
#include "tools/words/names.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// Another capture, or an individual, which stands for its oldest capture.
CaptureId other_named(const Identities& who, const Names& names, const std::string& text) {
  try {
    return names.capture(text).id;
  } catch (const Error& no_capture) {
    if (no_capture.kind() != ErrorKind::not_found) throw;
    try {
      return who.individual_named(text).captures.front();
    } catch (const Error& no_individual) {
      if (no_individual.kind() != ErrorKind::not_found) throw;
      throw Error(ErrorKind::not_found, in_quotes(text), messages::kIsNeitherIndividualNorCapture,
                  messages::kEvetIndividualsListsWhoIs);
    }
  }
}

std::string now_stands(const Identities& who, const Names& names, const CaptureState& capture) {
  std::vector<Message::Argument> about{{"capture", in_quotes(names.of(capture))},
                                       {"night", capture.facts.night}};
  if (capture.closed) {
    about.push_back({"as", words(capture.closed->as)});
    return in_words(messages::kCaptureIsClosed, about);
  }
  if (!capture.individual) return in_words(messages::kCaptureIsNotSettled, about);
  const Individual& individual = *who.individual(*capture.individual);
  about.push_back({"individual", in_quotes(names.of(individual))});
  about.push_back({"captures", counted(individual.captures.size(), messages::kCaptures)});
  std::string text = in_words(messages::kCaptureBelongsTo, about);
  if (capture.disputed) text += " " + in_words(messages::kItIsInDispute);
  return text;
}

int undo(Catalogue& catalogue, const std::string& entry, const std::string& reason, const CommandLine& line,
         Console& console) {
  const auto found = catalogue.entry(EntryId(entry));
  if (!found)
    throw Error(ErrorKind::not_found, entry_item(in_quotes(entry)), messages::kIsNotInLedger,
                messages::kGiveIdEvetVerdictPrinted);
  const bool empty_night =
      found->entry.kind == NightIntake::kKind && std::get<NightIntake>(body_of(found->entry)).captures == 0;
  if (found->entry.kind != Verdict::kKind && found->entry.kind != Closing::kKind &&
      found->entry.kind != Withdrawal::kKind && !empty_night)
    throw Error(ErrorKind::bad_input, entry_item(in_quotes(entry)),
                Message(messages::kIsNotVerdict, {{"kind", found->entry.kind}}),
                messages::kUndoTakesBackVerdictsClosings);
  const auto written = catalogue.append(line.actor(), {Withdrawal{EntryId(entry), reason}});
  if (line.json())
    print(console, {{"entry", written.front().id.value}, {"withdraws", entry}});
  else
    console.out << in_words(messages::kTakenBack,
                            {{"catalogue", line.catalogue()}, {"entry", written.front().id.value}})
                << "\n";
  return kDone;
}

Error wrong_usage(const std::string& item, const Message& what, const Message& right) {
  return {ErrorKind::usage, item, what, right};
}

std::string underscored(std::string text) {
  std::replace(text.begin(), text.end(), '-', '_');
  return text;
}

// What is said of the capture: who it is, or that it belongs to nobody. Neither where only a label is given.
struct AnswerSaid {
  std::optional<Answer> answer;
  std::optional<ClosedAs> closed;
};
// Errors: usage, for no answer or one that wants, or has, too much beside it.
AnswerSaid answer_said(const std::string& text, const std::string& other) {
  if (text.empty()) return {};
  const AnswerSaid said{answer_named(underscored(text)), closed_as_named(underscored(text))};
  if (!said.answer && !said.closed)
    throw wrong_usage(in_quotes(text), messages::kIsNoAnswer, messages::kAnswersAre);
  const bool alone =
      said.closed ? *said.closed != ClosedAs::same_capture : *said.answer == Answer::new_individual;
  if (!alone && other.empty())
    throw wrong_usage("OTHER", messages::kIsMissing,
                      said.closed ? messages::kNameSameCapture : messages::kNameWhatItIsComparedWith);
  if (alone && !other.empty())
    throw wrong_usage(in_quotes(other), Message(messages::kAnswerStandsAlone, {{"answer", text}}),
                      said.closed ? Message(messages::kLeaveOtherOut)
                                  : Message(messages::kLeaveItOutOrLabel, {{"label", other}}));
  return said;
}

struct Asked {
  std::string capture, answer, other, reason, in_spite, label;
};

// The entries that say it. Errors: conflict, for what speaks against it where no reason is given, and for a
// label that another individual bears.
std::vector<Body> bodies_of(Catalogue& catalogue, const Asked& asked, const AnswerSaid& said, CaptureId& id) {
  const Identities who = catalogue.identities();
  const Names names(who);
  id = names.capture(asked.capture).id;
  std::vector<Body> bodies;
  std::set<IndividualId> own;
  if (const auto& mine = who.capture(id)->individual) own.insert(*mine);
  const std::string item = capture_item(in_quotes(asked.capture));
  const std::string& reason = asked.reason.empty() ? asked.in_spite : asked.reason;
  if (said.answer) {
    Verdict verdict{.capture = id, .answer = *said.answer, .reason = reason};
    if (!asked.other.empty()) verdict.other = other_named(who, names, asked.other);
    if (verdict.other == id)
      throw Error(ErrorKind::bad_input, item, messages::kIsComparedWithItself,
                  messages::kNameAnotherCaptureOrIndividual);
    if (*said.answer == Answer::same)
      if (const auto& theirs = who.capture(verdict.other)->individual) own.insert(*theirs);
    verdict.in_spite_of = overrule(objections_to(catalogue, verdict), asked.in_spite, nullptr, item,
                                   messages::kLookAgainOrSayWhy);
    bodies.push_back(std::move(verdict));
  } else if (said.closed) {
    Closing closing{.capture = id, .as = *said.closed, .reason = reason};
    if (!asked.other.empty()) closing.other = names.capture(asked.other).id;
    if (closing.other == id)
      throw Error(ErrorKind::bad_input, item, messages::kIsSaidBeSameAs, messages::kNameAnotherCapture);
    closing.in_spite_of = overrule(objections_to(catalogue, closing), asked.in_spite, nullptr, item,
                                   messages::kLookAgainOrSayWhy);
    bodies.push_back(std::move(closing));
  }
  if (!asked.label.empty()) {
    const Individual* known = own.size() == 1 ? who.individual(*own.begin()) : nullptr;
    if (known != nullptr && !said.answer) {  // renamed: the label goes where it becomes its own
      bodies.push_back(label_for(*known, asked.label, catalogue.statements(), who));
    } else {
      refuse_shared_label(who, asked.label, own);
      bodies.push_back(LabelGiven{id, asked.label});
    }
  }
  return bodies;
}

constexpr const char* kExamples =
    "evet verdict alder-fen c7 same N-012 --by KM --reason \"forked spot under the throat\"\n"
    "  evet verdict alder-fen 2024-05-14/c8 new --label N-031 --by KM\n"
    "  evet verdict alder-fen c9 no-animal --by KM --reason \"an empty tray\"";

void take_options(CommandLine& line, Asked& asked, std::string& undone) {
  line.app().add_option("CAPTURE", asked.capture, in_words(messages::kHelpVerdictTheCapture));
  line.app().add_option("ANSWER", asked.answer, in_words(messages::kHelpVerdictTheAnswer));
  line.app().add_option("OTHER", asked.other, in_words(messages::kHelpVerdictTheOther));
  line.app().add_option("--reason", asked.reason, in_words(messages::kHelpVerdictReason))->type_name("WORDS");
  line.app()
      .add_option("--in-spite", asked.in_spite, in_words(messages::kHelpVerdictInSpite))
      ->type_name("WORDS");
  line.app().add_option("--label", asked.label, in_words(messages::kHelpVerdictLabel))->type_name("NAME");
  line.app().add_option("--undo", undone, in_words(messages::kHelpVerdictUndo))->type_name("ENTRY");
}

int tell_recorded(Catalogue& catalogue, const CaptureId& id, const EntryId& written, const CommandLine& line,
                  Console& console) {
  const Identities& who = catalogue.identities();
  const Names names(who);
  const CaptureState& capture = *who.capture(id);
  if (line.json()) {
    print(console,
          {{"entry", written.value},
           {"capture", names.of(capture)},
           {"individual", capture.individual ? nlohmann::json(names.of(*capture.individual)) : nullptr},
           {"closed", capture.closed ? nlohmann::json(name(capture.closed->as)) : nullptr},
           {"disputed", capture.disputed}});
    return kDone;
  }
  console.out << in_words(messages::kRecordedAs, {{"entry", written.value}}) << " "
              << now_stands(who, names, capture) << "\n";
  return kDone;
}

}  // namespace

int run_verdict(const Args& args, Console& console) {
  CommandLine line("verdict", messages::kVerdictDoes, kExamples);
  line.take_catalogue();
  line.take_actor();
  Asked asked;
  std::string undone;
  take_options(line, asked, undone);
  if (const auto done = line.parse(args, console)) return *done;

  if (!undone.empty()) {
    if (!asked.capture.empty())
      throw wrong_usage("--undo", messages::kUndoStandsAlone, messages::kLeaveCaptureAndAnswerOut);
    Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::write);
    return undo(catalogue, undone, asked.reason, line, console);
  }
  if (asked.capture.empty())
    throw wrong_usage("CAPTURE", messages::kIsMissing, messages::kNameCaptureThenAnswer);
  if (asked.answer.empty() && asked.label.empty())
    throw wrong_usage("ANSWER", messages::kIsMissing, messages::kAnswersAre);
  const AnswerSaid said = answer_said(asked.answer, asked.other);

  Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::write);
  CaptureId id;
  const auto written = catalogue.append(line.actor(), bodies_of(catalogue, asked, said, id));
  return tell_recorded(catalogue, id, written.front().id, line, console);
}

}  // namespace evet
