#include <ostream>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/base/place.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/report/choose_night.h"
#include "tools/words/night_fields.h"
#include "tools/words/text.h"

namespace evet {
namespace {

void tell(const NightIntake::Visit& visit, const NightFacts& facts, Console& console) {
  console.out << "Night of " << visit.night << " at " << place_of(visit.site, visit.pond) << ":\n";
  for (const NightField& field : night_fields()) {
    const std::string text = field_text(facts, field);
    console.out << "  " << field.name << ": " << (text.empty() ? "not written down" : text) << "\n";
  }
}

nlohmann::json as_json(const NightIntake::Visit& visit, const NightFacts& facts) {
  return {{"night", visit.night}, {"site", visit.site}, {"pond", visit.pond}, {"facts", facts}};
}

std::string option_of(const char* key) {
  std::string option = std::string("--") + key;
  for (char& c : option)
    if (c == '_') c = '-';
  return option;
}

}  // namespace

int run_night(const Args& args, Console& console) {
  CommandLine line(
      "night",
      "Shows, or writes down, what was done at one place on one night beside the captures: how and for\n"
      "how long animals were looked for, the weather, whose licence it was. The report lists it. What is\n"
      "written down again becomes a new entry of the ledger, and the old one stays; an empty value takes\n"
      "a field away.",
      "evet night alder-fen --night 2024-05-14 --method \"bottle traps\" --effort 12 --effort-unit \"trap "
      "nights\" \\\n"
      "    --weather \"overcast, calm\" --holder \"K. Moor\" --by KM");
  line.take_catalogue();
  line.take_actor();
  VisitWanted wanted;
  std::string reason;
  line.app().add_option("--night", wanted.night, "Which night (else the newest)")->type_name("DATE");
  line.app().add_option("--site", wanted.site, "Which site, where the night has several")->type_name("SITE");
  line.app().add_option("--pond", wanted.pond, "Which pond of it")->type_name("POND");
  std::map<std::string, std::string> values;
  std::map<std::string, CLI::Option*> given;
  for (const NightField& field : night_fields())
    given[field.key] =
        line.app()
            .add_option(option_of(field.key), values[field.key], std::string(field.name) + ": " + field.hint)
            ->type_name(field.number ? "NUMBER" : "WORDS");
  line.app().add_option("--reason", reason, "Why it is written down anew")->type_name("WORDS");
  if (const auto done = line.parse(args, console)) return *done;
  if (!wanted.night.empty() && !is_date(wanted.night))
    throw Error(ErrorKind::usage, "--night",
                Message(messages::kIsNoDate, {{"text", evet::quoted(wanted.night)}}),
                messages::kWriteIsoDate);
  std::erase_if(values, [&](const auto& one) { return given.at(one.first)->count() == 0; });

  Catalogue catalogue =
      open_catalogue(line.catalogue(), console, values.empty() ? Access::read : Access::write);
  const NightIntake::Visit visit = choose_visit(catalogue, wanted);
  NightFacts facts = night_facts_of(catalogue, visit);
  if (values.empty()) {
    if (line.json())
      print(console, as_json(visit, facts));
    else
      tell(visit, facts, console);
    return kDone;
  }
  const NightFactsSaid said = night_facts_said(visit, facts, values, reason);
  std::string entry;
  if (!said.changes.empty()) entry = catalogue.append(line.actor(), {said}).front().id.value;
  facts = changed(facts, said);
  if (line.json()) {
    nlohmann::json out = as_json(visit, facts);
    out["entry"] = entry.empty() ? nlohmann::json(nullptr) : nlohmann::json(entry);
    print(console, out);
    return kDone;
  }
  console.out << (entry.empty() ? "That was written down already." : "Recorded as " + entry + ".") << "\n";
  tell(visit, facts, console);
  return kDone;
}

}  // namespace evet
