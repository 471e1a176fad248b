#include <algorithm>
#include <cctype>
#include <filesystem>
#include <ostream>
#include <span>
#include <sstream>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/photo/read_file.h"
#include "models/estimate.h"
#include "models/histories_csv.h"
#include "models/report/report_text.h"
#include "models/report/tidy_csv.h"
#include "tools/evet/commands.h"
#include "tools/evet/histories_wanted.h"
#include "tools/numbers/numbers_in_doubt.h"
#include "tools/words/history_cautions.h"

namespace evet {
namespace {

std::string text_of(const std::string& path, size_t max_bytes) {
  std::error_code failed;
  if (std::filesystem::is_regular_file(path, failed) && std::filesystem::file_size(path, failed) == 0 &&
      !failed)
    throw Error(ErrorKind::bad_input, path, "the file is empty (0 bytes)", "write it again and name it here");
  const Bytes file = read_file(path, path, max_bytes);
  return {reinterpret_cast<const char*>(file.data()), file.size()};
}

nlohmann::json card_from(const std::string& path) {
  try {
    return nlohmann::json::parse(text_of(path, 1u << 20));
  } catch (const nlohmann::json::parse_error& error) {
    throw Error(ErrorKind::bad_input, path, "it is not JSON (byte " + std::to_string(error.byte) + ")",
                "see models/README.md for an example");
  }
}

// "Number of animals by model" -> "number_of_animals_by_model"
std::string file_name(const std::string& title) {
  std::string name;
  for (const char sign : title) {
    const auto letter = static_cast<unsigned char>(sign);
    if (std::isalnum(letter))
      name += static_cast<char>(std::tolower(letter));
    else if (!name.empty() && name.back() != '_')
      name += '_';
  }
  while (!name.empty() && name.back() == '_') name.pop_back();
  return name.empty() ? "plot" : name;
}

std::vector<std::string> write_tables(const models::EstimateReport& report, const std::string& folder,
                                      Env& env) {
  std::vector<std::string> files;
  env.make_folders(folder);
  for (const auto& [name, text] : {std::pair{"estimates.csv", models::estimates_csv(report)},
                                   {"models.csv", models::models_csv(report)},
                                   {"tests.csv", models::tests_csv(report)}}) {
    files.push_back((std::filesystem::path(folder) / name).string());
    write_file_durably(env, files.back(), std::as_bytes(std::span(text)));
  }
  return files;
}

// A model that is not known, or two of different designs, is a slip on the command line.
void check_models(const models::EstimateRequest& request) {
  std::string design = request.design == "auto" ? "" : request.design, known;
  for (const char* one : {"closed", "open", "robust"})
    if (design.empty() || design == one)
      for (const std::string& name : models::model_names(one)) known += (known.empty() ? "" : ", ") + name;
  for (const std::string& name : request.models) {
    std::string of;
    for (const char* one : {"closed", "open", "robust"})
      for (const std::string& other : models::model_names(one))
        if (name == other) of = one;
    if (of.empty() || (!design.empty() && of != design))
      throw Error(ErrorKind::usage, "--model '" + name + "'",
                  of.empty() ? "it is not known" : "it is for a population that is " + of + ", not " + design,
                  "use " + known);
    design = of;
  }
}

// One SVG a plot, named for what it shows; their names.
std::vector<std::string> write_plots(const models::EstimateReport& report, const std::string& folder,
                                     Env& env) {
  std::vector<std::string> files;
  env.make_folders(folder);
  for (const models::Plot& plot : report.plots) {
    const std::filesystem::path stem = std::filesystem::path(folder) / file_name(plot.title);
    std::string file = stem.string() + ".svg";
    for (int more = 2; std::find(files.begin(), files.end(), file) != files.end(); ++more)
      file = stem.string() + "_" + std::to_string(more) + ".svg";
    write_file_durably(env, file, std::as_bytes(std::span(plot.svg)));
    files.push_back(file);
  }
  return files;
}

}  // namespace

int run_estimate(const Args& args, Console& console) {
  CommandLine line(
      "estimate",
      "Estimates numbers, survival or growth from a catalogue or from a CSV of capture histories.\n"
      "With no model named, those that suit the data are fitted, and the report says why. Every figure\n"
      "has an interval and its assumptions; identities that are not settled are counted and named.",
      "evet estimate alder-fen --from 2031-03-01 --to 2031-06-30\n"
      "  evet estimate --csv histories.csv --design closed --model chapman,schnabel\n"
      "  evet estimate alder-fen --card model.json --plots plots");
  std::string catalogue_folder, csv, card, plots, tables;
  std::int64_t seed = 1;
  models::EstimateRequest request;
  HistoriesWanted wanted;
  line.app().add_option("CATALOGUE", catalogue_folder, "Folder of the catalogue");
  line.app()
      .add_option("--csv", csv, "Capture histories, as 'evet histories' writes them, instead of a catalogue")
      ->type_name("FILE");
  wanted.add_options(line.app());
  line.app()
      .add_option("--design", request.design, "auto, closed (no births, deaths or moves), open or robust")
      ->check(CLI::IsMember({"auto", "closed", "open", "robust"}))
      ->capture_default_str()
      ->type_name("DESIGN");
  line.app()
      .add_option("--model", request.models, "Only these models (a wrong name lists those there are)")
      ->delimiter(',')
      ->allow_extra_args(false)
      ->type_name("NAME,...");
  line.app()
      .add_option("--card", card, "A model card: JSON that states design and models")
      ->type_name("FILE");
  line.app().add_option("--plots", plots, "Folder for the plots, as SVG")->type_name("FOLDER");
  line.app()
      .add_option("--tables", tables, "Folder for the tables, as CSV: one row an estimate, a model, a test")
      ->type_name("FOLDER");
  line.app()
      .add_option("--level", request.level, "Of every interval")
      ->check(CLI::Range(0.5, 0.9999))
      ->capture_default_str()
      ->type_name("P");
  line.app()
      .add_option("--seed", seed, "Of the random starts and draws")
      ->check(CLI::NonNegativeNumber)
      ->capture_default_str()
      ->type_name("N");
  line.app()
      .add_option("--area", request.area_m2, "Area of the water that was sampled, for densities")
      ->check(CLI::Range(0.1, 1e9))
      ->type_name("M2");
  bool certain = false;
  line.app().add_flag("--certain", certain,
                      "Take every settled identity for certain; leave out the doubt about them");
  line.take_threads();
  if (const auto done = line.parse(args, console)) return *done;
  if (catalogue_folder.empty() == csv.empty())
    throw Error(ErrorKind::usage, "estimate",
                csv.empty() ? "there is nothing to estimate from" : "there are two sources",
                "name a catalogue, or --csv FILE");
  if (!csv.empty() && wanted.any_but_gap())
    throw Error(ErrorKind::usage, "--csv", "place and time can be chosen from a catalogue only",
                "leave --site, --pond, --from, --to, --stage and --nights out");
  request.period_gap_days = wanted.gap_days();
  check_models(request);
  request.seed = static_cast<std::uint64_t>(seed);
  if (!card.empty()) request.card = card_from(card);
  request.plots = line.json() || !plots.empty();
  if (!plots.empty()) check_can_make_folder(console.env, plots);
  if (!tables.empty()) check_can_make_folder(console.env, tables);

  models::EstimateInDoubt both;
  std::vector<std::string> about_identities, occasions;
  std::size_t animals = 0;
  if (csv.empty()) {
    Catalogue catalogue = open_catalogue(catalogue_folder, console, Access::read);
    const Identities who = catalogue.identities();
    const Statements said = catalogue.statements();
    const HistoriesOptions where = wanted.options();
    const CatalogueHistories made = capture_histories(said, who, where);
    about_identities = cautions(made.report);
    occasions = made.histories.occasions;
    animals = made.histories.animal_count();
    std::vector<Doubt> doubts;
    if (!certain) doubts = doubts_of(catalogue, said, who, where, line.threads());
    both = numbers_of(said, who, doubts, where, request);
    if (certain) both.why = "Every settled identity was taken for certain, as asked.";
  } else {
    std::istringstream text(text_of(csv, 64u << 20));
    const models::CaptureHistories histories = models::read_histories_csv(text);
    occasions = histories.occasions;
    animals = histories.animal_count();
    both.report = models::estimate(histories, request);
  }
  const models::EstimateReport& report = both.report;
  std::vector<std::string> files;
  if (!plots.empty()) files = write_plots(report, plots, console.env);
  if (!tables.empty()) {
    const std::vector<std::string> more = write_tables(report, tables, console.env);
    files.insert(files.end(), more.begin(), more.end());
  }
  if (line.json()) {
    nlohmann::json document = models::to_json(report);
    document["histories"] = {{"animals", animals}, {"occasions", occasions}};
    document["identities"] = models::to_json_of_doubt(both);
    document["about_identities"] = about_identities;
    document["plot_files"] = files;
    print(console, document);
    return kDone;
  }
  // Where a night is open, the figure that takes it in is the one to quote.
  const bool open_night = !report.stopped_before.empty() && !both.plain.empty();
  console.out << models::to_text(
      report, 100,
      open_night ? both.plain + " (Identities of " + report.stopped_before + " are drawn; see below.)" : "");
  if (csv.empty()) console.out << models::to_text_of_doubt(both);
  if (!about_identities.empty()) console.out << "\nAbout the identities\n";
  for (const std::string& caution : about_identities) console.out << "  - " << caution << "\n";
  for (const std::string& file : files) console.out << "Wrote " << file << "\n";
  return kDone;
}

}  // namespace evet
