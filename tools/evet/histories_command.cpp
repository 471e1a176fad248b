#include <spdlog/spdlog.h>

#include <ostream>
#include <sstream>

#include "matcher/base/error.h"
#include "matcher/base/printable.h"
#include "matcher/base/write_durably.h"
#include "models/histories_csv.h"
#include "tools/evet/commands.h"
#include "tools/evet/histories_wanted.h"
#include "tools/evet/messages.h"
#include "tools/words/history_cautions.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet {
namespace {

nlohmann::json to_json(const CatalogueHistories& made, const std::vector<std::string>& warnings) {
  const models::CaptureHistories& h = made.histories;
  nlohmann::json animals = nlohmann::json::array();
  for (size_t a = 0; a < h.animal_count(); ++a) {
    std::string history;
    for (size_t o = 0; o < h.occasion_count(); ++o) history += h.was_caught(a, o) ? '1' : '0';
    nlohmann::json animal = {{"animal", h.animals[a]}, {"history", history}};
    if (h.was_lost(a)) animal["lost"] = true;
    for (const auto& [group, levels] : h.groups) animal[group] = levels[a];
    for (const auto& [covariate, values] : h.covariates)
      animal[covariate] = values[a] == values[a] ? nlohmann::json(values[a]) : nullptr;
    animals.push_back(std::move(animal));
  }
  nlohmann::json document = {{"occasions", h.occasions},
                             {"animals", animals},
                             {"captures", made.report.captures},
                             {"used", made.report.used},
                             {"unsettled", made.report.unsettled.size()},
                             {"disputed", made.report.disputed.size()},
                             {"by_program", made.report.by_program.size()},
                             {"empty_nights", made.report.empty_nights},
                             {"open_nights", made.report.open_nights},
                             {"warnings", warnings}};
  for (const auto& [name, values] : h.occasion_covariates) document[name] = values;
  return document;
}

// Names come from sheets and from other people's catalogues: no terminal and no
// spreadsheet is to act on them.
std::string lines_printable(const std::string& text) {
  std::string out;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    const bool ends_in_cr = line.ends_with('\r');  // RFC 4180
    if (ends_in_cr) line.pop_back();
    out += printable(line) + (ends_in_cr ? "\r\n" : "\n");
  }
  return out;
}

}  // namespace

int run_histories(const Args& args, Console& console) {
  CommandLine line("histories", messages::kHistoriesDoes,
                   "evet histories alder-fen --from 2024-03-01 --to 2024-06-30 --out histories.csv");
  line.take_catalogue();
  HistoriesWanted wanted;
  wanted.add_options(line.app());
  bool ponds = false;
  line.app().add_flag("--ponds", ponds, in_words(messages::kHelpHistoriesPonds));
  std::string out;
  line.app().add_option("--out", out, in_words(messages::kHelpHistoriesOut))->type_name("FILE");
  if (const auto done = line.parse(args, console)) return *done;

  Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::read);
  const Identities who = catalogue.identities();
  HistoriesOptions options = wanted.options();
  options.places = ponds;
  const CatalogueHistories made = capture_histories(catalogue.statements(), who, options);
  std::vector<std::string> warnings;
  for (const Message& caution : cautions(made.report)) warnings.push_back(caution.words());
  for (const std::string& warning : warnings) spdlog::warn("{}", warning);
  if (line.json() && out.empty()) {
    print(console, to_json(made, warnings));
    return kDone;
  }
  std::ostringstream csv;
  models::write_histories_csv(made.histories, csv);
  const std::string text = lines_printable(csv.str());
  if (out.empty()) {
    console.out << text;
    return kDone;
  }
  write_file_durably(console.env, out, std::as_bytes(std::span(text)));
  if (line.json())
    print(console, to_json(made, warnings));
  else
    console.out << in_words(messages::kWroteHistories,
                            {{"animals", counted(made.histories.animal_count(), messages::kCountAnimals)},
                             {"nights", counted(made.histories.occasion_count(), messages::kCountNights)},
                             {"file", out}})
                << "\n";
  return kDone;
}

}  // namespace evet
