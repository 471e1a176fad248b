#include <algorithm>
#include <ostream>
#include <set>
#include <span>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/base/place.h"
#include "matcher/base/write_durably.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/report/strip_catalogue.h"
#include "tools/words/animal_words.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/names.h"
#include "tools/words/text.h"
#include "tools/words/text_table.h"

#include <fmt/format.h>

namespace evet {
namespace {

std::string mm(const std::optional<double>& value) {
  return value ? fmt::format("{:g}", *value) : "";
}

struct Life {
  std::vector<const CaptureState*> captures;  // oldest first
  std::set<std::string> nights, places;
  std::optional<double> last_svl_mm;
  std::string lost_night;  // the last on which it was not released; empty: none
};

Life life_of(const Identities& who, const Individual& individual) {
  Life life;
  for (const CaptureId& id : individual.captures) {
    const CaptureState* capture = who.capture(id);
    life.captures.push_back(capture);
    life.nights.insert(capture->facts.night);
    life.places.insert(place_of(capture->facts.site, capture->facts.pond));
    if (capture->facts.lost) life.lost_night = capture->facts.night;
    if (capture->facts.svl_mm) life.last_svl_mm = capture->facts.svl_mm;
  }
  return life;
}

nlohmann::json to_json(const Identities& who, const Names& names, const Individual& individual) {
  nlohmann::json captures = nlohmann::json::array();
  for (const CaptureState* capture : life_of(who, individual).captures) {
    nlohmann::json photos = nlohmann::json::array();
    for (const PhotoState& photo : capture->photos)
      photos.push_back({{"photo", photo.name}, {"usable", photo.usable}});
    captures.push_back({{"capture", names.of(*capture)},
                        {"night", capture->facts.night},
                        {"site", capture->facts.site},
                        {"pond", capture->facts.pond},
                        {"sex", name(capture->facts.sex)},
                        {"stage", capture->facts.stage},
                        {"svl_mm", capture->facts.svl_mm ? nlohmann::json(*capture->facts.svl_mm) : nullptr},
                        {"released", !capture->facts.lost},
                        {"photos", photos},
                        {"by_program", capture->by_program},
                        {"disputed", capture->disputed}});
  }
  return {{"individual", names.of(individual)}, {"id", individual.id.value},
          {"aliases", individual.aliases},      {"sex", name(individual.sex)},
          {"disputed", individual.disputed},    {"captures", captures}};
}

// By first night; those of one night as on its sheet.
std::vector<const Individual*> in_order(const Identities& who) {
  std::vector<const Individual*> out;
  for (const Individual& individual : who.individuals) out.push_back(&individual);
  std::stable_sort(out.begin(), out.end(), [&](const Individual* a, const Individual* b) {
    return listed_before(*who.capture(a->captures.front()), *who.capture(b->captures.front()));
  });
  return out;
}

void print_list(const Identities& who, const Names& names, Console& console) {
  TextTable table({in_words(messages::kHeadIndividual), in_words(messages::kHeadSex),
                   ">" + in_words(messages::kHeadCaptures), ">" + in_words(messages::kHeadNights),
                   in_words(messages::kHeadFirst), in_words(messages::kHeadLast),
                   ">" + in_words(messages::kHeadSvl), in_words(messages::kHeadPlaceColumn),
                   in_words(messages::kHeadRemarks)});
  for (const Individual* one : in_order(who)) {
    const Individual& individual = *one;
    const Life life = life_of(who, individual);
    std::vector<std::string> remarks;
    if (individual.disputed) remarks.push_back(in_words(messages::kInDispute));
    if (!life.lost_night.empty())
      remarks.push_back(in_words(messages::kNotReleasedOn, {{"night", life.lost_night}}));
    for (const std::string& alias : individual.aliases)
      remarks.push_back(in_words(messages::kAlsoCalled, {{"name", alias}}));
    table.row({names.of(individual), animal_in_words(name(individual.sex), {}),
               std::to_string(life.captures.size()), std::to_string(life.nights.size()), *life.nights.begin(),
               *life.nights.rbegin(), mm(life.last_svl_mm),
               life.places.size() == 1 ? *life.places.begin()
                                       : in_words(messages::kSeveralPlaces, {{"places", life.places.size()}}),
               joined(remarks, ", ")});
  }
  if (!table.empty()) table.print(console.out, console.colour);
  console.out << in_words(messages::kIndividualsInAll,
                          {{"individuals", counted(who.individuals.size(), messages::kIndividuals)},
                           {"captures", counted(who.captures.size(), messages::kCaptures)},
                           {"open", static_cast<size_t>(who.unsettled())},
                           {"disputes", counted(who.disputes.size(), messages::kDisputes)}})
              << "\n";
}

void print_life(const Identities& who, const Names& names, const Individual& individual, Console& console) {
  console.out << names.of(individual);
  if (individual.sex != Sex::unknown) console.out << ", " << animal_in_words(name(individual.sex), {});
  for (const std::string& alias : individual.aliases)
    console.out << ", " << in_words(messages::kAlsoCalled, {{"name", alias}});
  if (individual.disputed) console.out << ", " << in_words(messages::kInDispute);
  console.out << "\n";
  TextTable table({in_words(messages::kHeadNight), in_words(messages::kHeadCapture),
                   in_words(messages::kHeadPlaceColumn), in_words(messages::kHeadStage),
                   ">" + in_words(messages::kHeadSvl), ">" + in_words(messages::kHeadPhotos),
                   in_words(messages::kHeadPlacedBy), in_words(messages::kHeadRemarks)});
  for (const CaptureState* capture : life_of(who, individual).captures)
    table.row({capture->facts.night, names.of(*capture), place_of(capture->facts.site, capture->facts.pond),
               animal_in_words({}, capture->facts.stage), mm(capture->facts.svl_mm),
               std::to_string(capture->photos.size()),
               in_words(capture->by_program ? messages::kByProgram : messages::kByPerson),
               capture->facts.lost ? in_words(messages::kNotReleased) : ""});
  table.print(console.out, console.colour);
}

int write_strips(const CommandLine& line, const std::string& file, Console& console) {
  check_can_write_file(console.env, file);
  Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::read);
  const std::vector<CatalogueStrip> strips = strips_by_likeness(catalogue, line.threads());
  const std::string page = strip_catalogue_html(catalogue, strips, console.env);
  write_file_durably(console.env, file, std::as_bytes(std::span(page)));
  if (line.json())
    print(console,
          {{"strips", file}, {"individuals", strips.size()}, {"ledger_head", catalogue.head_hash()}});
  else
    console.out << in_words(messages::kStripsAreIn,
                            {{"individuals", counted(strips.size(), messages::kIndividuals)}, {"file", file}})
                << "\n";
  return kDone;
}

}  // namespace

int run_individuals(const Args& args, Console& console) {
  CommandLine line("individuals", messages::kIndividualsDoes,
                   "evet individuals alder-fen\n  evet individuals alder-fen N-012 --as-of 2024-05-01\n"
                   "  evet individuals alder-fen --strips strips.html");
  line.take_catalogue();
  line.take_threads();
  std::string one, as_of, strips;
  line.app().add_option("INDIVIDUAL", one, in_words(messages::kHelpIndividualsTheIndividual));
  line.app().add_option("--as-of", as_of, in_words(messages::kHelpIndividualsAsOf))->type_name("DATE");
  line.app().add_option("--strips", strips, in_words(messages::kHelpIndividualsStrips))->type_name("FILE");
  if (const auto done = line.parse(args, console)) return *done;
  if (!strips.empty() && !(one.empty() && as_of.empty()))
    throw Error(ErrorKind::usage, "--strips", messages::kStripsAreOfEveryone, messages::kLeaveIndividualOut);
  if (!strips.empty()) return write_strips(line, strips, console);

  Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::read);
  const Identities who = as_of.empty() ? catalogue.identities() : catalogue.identities_as_of(as_of);
  const Names names(who);
  if (!one.empty()) {
    const Individual& individual = who.individual_named(one);
    if (line.json())
      print(console, to_json(who, names, individual));
    else
      print_life(who, names, individual, console);
    return kDone;
  }
  if (!line.json()) {
    print_list(who, names, console);
    return kDone;
  }
  nlohmann::json individuals = nlohmann::json::array(), unsettled = nlohmann::json::array();
  for (const Individual* individual : in_order(who)) individuals.push_back(to_json(who, names, *individual));
  nlohmann::json closed = nlohmann::json::array();
  for (const CaptureState& capture : who.captures) {
    if (capture.closed)
      closed.push_back({{"capture", names.of(capture)},
                        {"as", name(capture.closed->as)},
                        {"by", capture.closed->by},
                        {"on", capture.closed->on}});
    else if (!capture.individual)
      unsettled.push_back(names.of(capture));
  }
  print(console, {{"individuals", individuals},
                  {"unsettled", unsettled},
                  {"closed", closed},
                  {"disputes", who.disputes.size()},
                  {"ledger_head", catalogue.head_hash()}});
  return kDone;
}

}  // namespace evet
