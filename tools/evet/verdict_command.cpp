#include <algorithm>
#include <ostream>
#include <set>

#include "matcher/base/error.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/verdicts/labels.h"
#include "tools/verdicts/objections.h"
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
      throw Error(ErrorKind::not_found, evet::quoted(text), messages::kIsNeitherIndividualNorCapture,
                  messages::kEvetIndividualsListsWhoIs);
    }
  }
}

std::string now_stands(const Identities& who, const Names& names, const CaptureState& capture) {
  std::string text = "Capture " + evet::quoted(names.of(capture)) + " of " + capture.facts.night + " ";
  if (capture.closed) return text + "is closed: " + words(capture.closed->as) + ".";
  if (!capture.individual) return text + "is not settled.";
  const Individual& individual = *who.individual(*capture.individual);
  text += "belongs to " + evet::quoted(names.of(individual)) + ", which has " +
          counted(individual.captures.size(), "capture") + ".";
  if (capture.disputed) text += " It is in dispute: verdicts contradict each other.";
  return text;
}

int undo(Catalogue& catalogue, const std::string& entry, const std::string& reason, const CommandLine& line,
         Console& console) {
  const auto found = catalogue.entry(EntryId(entry));
  if (!found)
    throw Error(ErrorKind::not_found, "entry " + evet::quoted(entry), messages::kIsNotInLedger,
                messages::kGiveIdEvetVerdictPrinted);
  const bool empty_night =
      found->entry.kind == NightIntake::kKind && std::get<NightIntake>(body_of(found->entry)).captures == 0;
  if (found->entry.kind != Verdict::kKind && found->entry.kind != Closing::kKind &&
      found->entry.kind != Withdrawal::kKind && !empty_night)
    throw Error(ErrorKind::bad_input, "entry " + evet::quoted(entry),
                Message(messages::kIsNotVerdict, {{"kind", found->entry.kind}}),
                messages::kUndoTakesBackVerdictsClosings);
  const auto written = catalogue.append(line.actor(), {Withdrawal{EntryId(entry), reason}});
  if (line.json())
    print(console, {{"entry", written.front().id.value}, {"withdraws", entry}});
  else
    console.out << "Taken back; both stay in the ledger. To put it back: evet verdict " << line.catalogue()
                << " --undo " << written.front().id.value << "\n";
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
    throw wrong_usage(evet::quoted(text), messages::kIsNoAnswer, messages::kAnswersAre);
  const bool alone =
      said.closed ? *said.closed != ClosedAs::same_capture : *said.answer == Answer::new_individual;
  if (!alone && other.empty())
    throw wrong_usage("OTHER", messages::kIsMissing,
                      said.closed ? messages::kNameSameCapture : messages::kNameWhatItIsComparedWith);
  if (alone && !other.empty())
    throw wrong_usage(evet::quoted(other), Message(messages::kAnswerStandsAlone, {{"answer", text}}),
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
  const std::string item = "capture " + evet::quoted(asked.capture);
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

constexpr const char* kAbout =
    "Records what a person says of a capture. Nothing is overwritten: a later verdict stands beside\n"
    "the earlier one, and where two contradict each other the capture is in dispute.\n"
    "ANSWER is one of\n"
    "  same         it is this individual (or the animal of this other capture): name it\n"
    "  different    it is not: name the individual or capture\n"
    "  new          it is none of the known individuals\n"
    "  cannot-tell  looked at, and not to be decided from these photos: name the same way\n"
    "or closes a capture that can belong to nobody:\n"
    "  no-animal         there is none in its photos\n"
    "  not-identifiable  an animal was caught, and nobody will ever tell which\n"
    "  same-capture      it is the same animal in hand as another capture of the night: name that\n"
    "What speaks against a verdict (the same night, the other sex, a length that shrank, another site, "
    "...)\n"
    "is said, and nothing is recorded, unless --in-spite says why it is so all the same. It stays with "
    "the\n"
    "entry, and 'evet audit' and the report list it.";
constexpr const char* kExamples =
    "evet verdict alder-fen c7 same N-012 --by KM --reason \"forked spot under the throat\"\n"
    "  evet verdict alder-fen 2024-05-14/c8 new --label N-031 --by KM\n"
    "  evet verdict alder-fen c9 no-animal --by KM --reason \"an empty tray\"";

void take_options(CommandLine& line, Asked& asked, std::string& undone) {
  line.app().add_option("CAPTURE", asked.capture, "As on its sheet, as NIGHT/NAME, or by one of its photos");
  line.app().add_option("ANSWER", asked.answer,
                        "same, different, new, cannot-tell, no-animal, not-identifiable or same-capture");
  line.app().add_option("OTHER", asked.other, "An individual or another capture, where the answer needs one");
  line.app().add_option("--reason", asked.reason, "Why: what a reviewer should look at")->type_name("WORDS");
  line.app()
      .add_option("--in-spite", asked.in_spite, "Why it is so in spite of what speaks against it")
      ->type_name("WORDS");
  line.app()
      .add_option("--label", asked.label, "A name for the individual, which no other bears")
      ->type_name("NAME");
  line.app()
      .add_option("--undo", undone, "Take this entry back instead: its id, as printed when it was recorded")
      ->type_name("ENTRY");
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
  console.out << "Recorded as " << written.value << ". " << now_stands(who, names, capture) << "\n";
  return kDone;
}

}  // namespace

int run_verdict(const Args& args, Console& console) {
  CommandLine line("verdict", kAbout, kExamples);
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
