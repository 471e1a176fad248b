#include <ostream>

#include "matcher/base/error.h"
#include "tools/evet/commands.h"
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
      throw Error(ErrorKind::not_found, evet::quoted(text), "it is neither an individual nor a capture",
                  "'evet individuals' lists who is known");
    }
  }
}

std::string now_stands(const Identities& who, const Names& names, const CaptureState& capture) {
  std::string text = "Capture " + evet::quoted(names.of(capture)) + " of " + capture.facts.night + " ";
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
    throw Error(ErrorKind::not_found, "entry " + evet::quoted(entry), "it is not in the ledger",
                "give the id that 'evet verdict' printed");
  const bool empty_night =
      found->entry.kind == NightIntake::kKind && std::get<NightIntake>(body_of(found->entry)).captures == 0;
  if (found->entry.kind != Verdict::kKind && found->entry.kind != Withdrawal::kKind && !empty_night)
    throw Error(ErrorKind::bad_input, "entry " + evet::quoted(entry),
                "it is a " + found->entry.kind + ", not a verdict",
                "undo takes back verdicts and nights without a catch, and undoing an undo puts them back");
  const auto written = catalogue.append(line.actor(), {Withdrawal{EntryId(entry), reason}});
  if (line.json())
    print(console, {{"entry", written.front().id.value}, {"withdraws", entry}});
  else
    console.out << "Taken back; both stay in the ledger. To put it back: evet verdict " << line.catalogue()
                << " --undo " << written.front().id.value << "\n";
  return kDone;
}

Error wrong_usage(const std::string& item, const std::string& what, const std::string& right) {
  return Error(ErrorKind::usage, item, what, right);
}

// Nothing where only a label is given. Errors: usage, for no answer or one that wants, or has, too much
// beside it.
std::optional<Answer> answer_said(const std::string& text, const std::string& other) {
  if (text.empty()) return std::nullopt;
  const auto answer = answer_named(text == "cannot-tell" ? name(Answer::cannot_tell) : text);
  if (!answer)
    throw wrong_usage(evet::quoted(text), "it is no answer", "say same, different, new or cannot-tell");
  if (*answer != Answer::new_individual && other.empty())
    throw wrong_usage("OTHER", "it is missing",
                      "name the individual or the capture that it is compared with");
  if (*answer == Answer::new_individual && !other.empty())
    throw wrong_usage(evet::quoted(other), "'new' stands alone", "leave it out, or say --label " + other);
  return answer;
}

}  // namespace

int run_verdict(const Args& args, Console& console) {
  CommandLine line(
      "verdict",
      "Records what a person says of a capture. Nothing is overwritten: a later verdict stands beside\n"
      "the earlier one, and where two contradict each other the capture is in dispute.\n"
      "ANSWER is one of\n"
      "  same         it is this individual (or the animal of this other capture): name it\n"
      "  different    it is not: name the individual or capture\n"
      "  new          it is none of the known individuals\n"
      "  cannot-tell  looked at, and not to be decided from these photos: name the same way",
      "evet verdict alder-fen c7 same N-012 --by KM --reason \"forked spot under the throat\"\n"
      "  evet verdict alder-fen 2031-05-14/c8 new --label N-031 --by KM");
  line.take_catalogue();
  line.take_actor();
  std::string capture_text, answer_text, other_text, reason, label, undone;
  line.app().add_option("CAPTURE", capture_text, "As on its sheet, as NIGHT/NAME, or by one of its photos");
  line.app().add_option("ANSWER", answer_text, "same, different, new or cannot-tell");
  line.app().add_option("OTHER", other_text, "An individual or another capture, for all answers but new");
  line.app().add_option("--reason", reason, "Why: what a reviewer should look at")->type_name("WORDS");
  line.app().add_option("--label", label, "A name for the individual")->type_name("NAME");
  line.app()
      .add_option("--undo", undone, "Take this entry back instead: its id, as printed when it was recorded")
      ->type_name("ENTRY");
  if (const auto done = line.parse(args, console)) return *done;

  if (!undone.empty()) {
    if (!capture_text.empty()) throw wrong_usage("--undo", "it stands alone", "leave CAPTURE and ANSWER out");
    Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::write);
    return undo(catalogue, undone, reason, line, console);
  }
  if (capture_text.empty())
    throw wrong_usage("CAPTURE", "it is missing", "name the capture, then the answer");
  if (answer_text.empty() && label.empty())
    throw wrong_usage("ANSWER", "it is missing", "say same, different, new or cannot-tell");
  const std::optional<Answer> answer = answer_said(answer_text, other_text);

  Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::write);
  std::vector<Body> bodies;
  CaptureId id;
  {
    const Identities who = catalogue.identities();
    const Names names(who);
    id = names.capture(capture_text).id;
    if (answer) {
      Verdict verdict{.capture = id, .answer = *answer, .reason = reason};
      if (!other_text.empty()) verdict.other = other_named(who, names, other_text);
      if (verdict.other == id)
        throw Error(ErrorKind::bad_input, "capture " + evet::quoted(capture_text),
                    "it is compared with itself", "name another capture or individual");
      bodies.push_back(std::move(verdict));
    }
    if (!label.empty()) bodies.push_back(LabelGiven{id, label});
  }
  const auto written = catalogue.append(line.actor(), bodies);
  const Identities& who = catalogue.identities();
  const Names names(who);
  const CaptureState& capture = *who.capture(id);
  if (line.json()) {
    print(console,
          {{"entry", written.front().id.value},
           {"capture", names.of(capture)},
           {"individual", capture.individual ? nlohmann::json(names.of(*capture.individual)) : nullptr},
           {"disputed", capture.disputed}});
    return kDone;
  }
  console.out << "Recorded as " << written.front().id.value << ". " << now_stands(who, names, capture)
              << "\n";
  return kDone;
}

}  // namespace evet
