#include <fmt/format.h>
#include <spdlog/spdlog.h>

#include <cmath>
#include <fstream>
#include <ostream>
#include <set>
#include <sstream>

#include "matcher/base/error.h"
#include "matcher/photo/read_file.h"
#include "models/estimate.h"
#include "models/histories_csv.h"
#include "tools/evet/commands.h"
#include "tools/evet/histories_wanted.h"
#include "tools/evet/text.h"
#include "tools/evet/text_table.h"

namespace evet {
namespace {

std::string number(double value) {
  if (std::isnan(value)) return "?";
  if (std::isinf(value)) return "no limit";
  if (std::abs(value) >= 100) return fmt::format("{:.0f}", value);
  return fmt::format("{:.{}f}", value, std::abs(value) >= 10 ? 1 : 3);
}

// "N: 34.2 (standard error 5.1; 95 % interval 27.8 to 49.0, log-normal)"
std::string in_words(const models::Estimate& estimate) {
  if (std::isnan(estimate.value))
    return estimate.parameter + ": no estimate; " +
           (estimate.undefined.empty() ? "the data are too thin" : estimate.undefined);
  std::string text = estimate.parameter + ": " + number(estimate.value);
  std::vector<std::string> more;
  if (!std::isnan(estimate.standard_error))
    more.push_back("standard error " + number(estimate.standard_error));
  if (!estimate.intervals.empty()) {
    const models::Interval& interval = estimate.intervals.front();
    more.push_back(fmt::format("{:g} % interval {} to {}, {}", interval.level * 100, number(interval.lower),
                               number(interval.upper), interval.method));
  }
  for (size_t i = 0; i < more.size(); ++i) text += (i == 0 ? " (" : "; ") + more[i];
  return more.empty() ? text : text + ")";
}

void print_list(const std::string& heading, const std::vector<std::string>& sentences, Console& console) {
  if (sentences.empty()) return;
  console.out << "\n" << heading << "\n";
  std::set<std::string> said;
  for (const std::string& sentence : sentences)
    if (said.insert(sentence).second) console.out << "  - " << sentence << "\n";
}

void print_models(const models::EstimateReport& report, Console& console) {
  TextTable table(
      {"model", ">estimate", ">std. error", ">lower", ">upper", ">AICc diff.", ">weight", "in words"});
  for (const models::ModelRow& row : report.table) {
    std::vector<std::string> cells{row.name};
    if (row.estimates.empty()) {
      cells.insert(cells.end(), {"", "", "", ""});
    } else {
      const models::Estimate& first = row.estimates.front();
      const models::Interval interval =
          first.intervals.empty() ? models::Interval{} : first.intervals.front();
      cells.insert(cells.end(), {number(first.value), number(first.standard_error), number(interval.lower),
                                 number(interval.upper)});
    }
    cells.push_back(row.has_likelihood ? number(row.delta) : "");
    cells.push_back(row.has_likelihood ? number(row.weight) : "");
    cells.push_back(row.description);
    table.row(std::move(cells));
  }
  table.print(console.out, console.colour);
}

void tell(const models::EstimateReport& report, const models::CaptureHistories& histories,
          const std::vector<std::string>& about_identities, Console& console) {
  console.out << counted(histories.animal_count(), "animal") << " over "
              << counted(histories.occasion_count(), "occasion") << ". " << report.why << "\n\n";
  for (const models::Estimate& answer : report.answer) console.out << in_words(answer) << "\n";
  console.out << "\n";
  print_models(report, console);
  for (const models::AssumptionTest& test : report.tests)
    console.out << fmt::format("{}: {} (p = {:.3g})\n", test.name, test.says, test.p_value);
  print_list("It is true only if:", report.assumptions, console);
  std::vector<std::string> warnings = report.warnings;
  warnings.insert(warnings.end(), about_identities.begin(), about_identities.end());
  print_list("Take care:", warnings, console);
  std::vector<std::string> sources;
  for (const models::Estimate& answer : report.answer)
    if (!answer.source.empty()) sources.push_back(answer.source);
  print_list("Method:", sources, console);
}

models::CaptureHistories histories_from(const std::string& csv) {
  const Bytes file = read_file(csv, csv, 64u << 20);
  std::istringstream text(std::string(reinterpret_cast<const char*>(file.data()), file.size()));
  return models::read_histories_csv(text);
}

}  // namespace

int run_estimate(const Args& args, Console& console) {
  CommandLine line(
      "estimate",
      "Estimates how many animals there are, from a catalogue or from a CSV of capture histories.\n"
      "With no model named, those that suit the data are fitted, and the report says why.",
      "evet estimate alder-fen --from 2031-03-01 --to 2031-06-30\n"
      "  evet estimate --csv histories.csv --model schnabel");
  std::string catalogue_folder, csv;
  models::EstimateRequest request;
  HistoriesWanted wanted;
  line.app().add_option("CATALOGUE", catalogue_folder, "Folder of the catalogue");
  line.app()
      .add_option("--csv", csv, "Capture histories, as 'evet histories' writes them, instead of a catalogue")
      ->type_name("FILE");
  wanted.add_options(line.app());
  line.app()
      .add_option("--design", request.design, "auto, closed (no births, deaths or moves), open or robust")
      ->capture_default_str()
      ->type_name("DESIGN");
  line.app()
      .add_option("--model", request.models, "Only these models (a wrong name lists those there are)")
      ->type_name("NAME...");
  line.app().add_option("--level", request.level, "Of every interval")->capture_default_str()->type_name("P");
  line.app()
      .add_option("--seed", request.seed, "Of the random starts")
      ->capture_default_str()
      ->type_name("N");
  if (const auto done = line.parse(args, console)) return *done;
  if (catalogue_folder.empty() == csv.empty())
    throw Error(ErrorKind::usage, "estimate",
                csv.empty() ? "there is nothing to estimate from" : "there are two sources",
                "name a catalogue, or --csv FILE");
  if (!csv.empty() && wanted.any())
    throw Error(ErrorKind::usage, "--csv", "place and time can be chosen from a catalogue only",
                "leave --site, --pond, --from, --to, --stage, --nights and --gap out");

  models::CaptureHistories histories;
  std::vector<std::string> about_identities;
  if (csv.empty()) {
    Catalogue catalogue = open_catalogue(catalogue_folder, console, Access::read);
    const Identities who = catalogue.identities();
    CatalogueHistories made = capture_histories(catalogue.statements(), who, wanted.options());
    about_identities = cautions(made.report);
    histories = std::move(made.histories);
  } else {
    histories = histories_from(csv);
  }
  const models::EstimateReport report = models::estimate(histories, request);
  if (!line.json()) {
    tell(report, histories, about_identities, console);
    return kDone;
  }
  nlohmann::json document = models::to_json(report);
  document["animals"] = histories.animal_count();
  document["occasions"] = histories.occasions;
  document["about_identities"] = about_identities;
  print(console, document);
  return kDone;
}

}  // namespace evet
