#include <ostream>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/base/place.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/report/choose_night.h"
#include "tools/report/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/night_fields.h"
#include "tools/words/text.h"

namespace evet {
namespace {

void tell(const NightIntake::Visit& visit, const NightFacts& facts, Console& console) {
  console.out << in_words(messages::kNightAtPlace,
                          {{"night", visit.night}, {"place", place_of(visit.site, visit.pond)}})
              << "\n";
  for (const NightField& field : night_fields()) {
    const std::string text = field_text(facts, field);
    console.out << "  " << in_words(field.name) << ": "
                << (text.empty() ? in_words(messages::kNotWrittenDown) : text) << "\n";
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
      "night", messages::kNightDoes,
      "evet night alder-fen --night 2024-05-14 --method \"bottle traps\" --effort 12 --effort-unit \"trap "
      "nights\" \\\n"
      "    --weather \"overcast, calm\" --holder \"K. Moor\" --by KM");
  line.take_catalogue();
  line.take_actor();
  VisitWanted wanted;
  std::string reason;
  line.app().add_option("--night", wanted.night, in_words(messages::kHelpNightNight))->type_name("DATE");
  line.app().add_option("--site", wanted.site, in_words(messages::kHelpNightSite))->type_name("SITE");
  line.app().add_option("--pond", wanted.pond, in_words(messages::kHelpNightPond))->type_name("POND");
  std::map<std::string, std::string> values;
  std::map<std::string, CLI::Option*> given;
  for (const NightField& field : night_fields())
    given[field.key] = line.app()
                           .add_option(option_of(field.key), values[field.key],
                                       in_words(field.name) + ": " + in_words(field.hint))
                           ->type_name(field.number ? "NUMBER" : "WORDS");
  line.app().add_option("--reason", reason, in_words(messages::kHelpNightReason))->type_name("WORDS");
  if (const auto done = line.parse(args, console)) return *done;
  if (!wanted.night.empty() && !is_date(wanted.night))
    throw Error(ErrorKind::usage, "--night",
                Message(messages::kIsNoDate, {{"text", in_quotes(wanted.night)}}), messages::kWriteIsoDate);
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
  console.out << (entry.empty() ? in_words(messages::kWrittenDownAlready)
                                : in_words(messages::kRecordedAs, {{"entry", entry}}))
              << "\n";
  tell(visit, facts, console);
  return kDone;
}

}  // namespace evet
