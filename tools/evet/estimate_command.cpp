#include <algorithm>
#include <cctype>
#include <filesystem>
#include <ostream>
#include <span>
#include <sstream>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "matcher/photo/read_file.h"
#include "models/estimate.h"
#include "models/histories_csv.h"
#include "models/report/report_text.h"
#include "models/report/tidy_csv.h"
#include "tools/evet/commands.h"
#include "tools/evet/histories_wanted.h"
#include "tools/evet/messages.h"
#include "tools/evet/pond_areas.h"
#include "tools/evet/wrong_usage.h"
#include "tools/numbers/numbers_in_doubt.h"
#include "tools/words/history_cautions.h"
#include "tools/words/in_words.h"

namespace evet {
namespace {

std::string text_of(const std::string& path, size_t max_bytes) {
  std::error_code failed;
  if (std::filesystem::is_regular_file(path, failed) && std::filesystem::file_size(path, failed) == 0 &&
      !failed)
    throw Error(ErrorKind::bad_input, path, messages::kEmptyInput, messages::kWriteItAgain);
  const Bytes file = read_file(path, path, max_bytes);
  return {reinterpret_cast<const char*>(file.data()), file.size()};
}

nlohmann::json card_from(const std::string& path) {
  try {
    return nlohmann::json::parse(text_of(path, 1u << 20));
  } catch (const nlohmann::json::parse_error& error) {
    throw Error(ErrorKind::bad_input, path, Message(messages::kIsNotJson, {{"byte", error.byte}}),
                messages::kSeeModelsReadme);
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
                  of.empty() ? Message(messages::kModelNotKnown)
                             : Message(messages::kModelOfOtherDesign, {{"of", of}, {"design", design}}),
                  Message(messages::kUseModels, {{"models", known}}));
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

struct EstimateWanted {
  std::string catalogue, csv, card, plots, tables, areas;
  std::int64_t seed = 1;
  bool certain = false;
  models::EstimateRequest request;
  HistoriesWanted histories;
};

void add_options(CommandLine& line, EstimateWanted& wanted) {
  line.app().add_option("CATALOGUE", wanted.catalogue, in_words(messages::kHelpCommandTheCatalogue));
  line.app().add_option("--csv", wanted.csv, in_words(messages::kHelpEstimateCsv))->type_name("FILE");
  wanted.histories.add_options(line.app());
  one_of(line.app().add_option("--design", wanted.request.design, in_words(messages::kHelpEstimateDesign)),
         {"auto", "closed", "open", "robust"})
      ->capture_default_str()
      ->type_name("DESIGN");
  line.app()
      .add_option("--model", wanted.request.models, in_words(messages::kHelpEstimateModel))
      ->delimiter(',')
      ->allow_extra_args(false)
      ->type_name("NAME,...");
  line.app().add_option("--card", wanted.card, in_words(messages::kHelpEstimateCard))->type_name("FILE");
  line.app().add_option("--plots", wanted.plots, in_words(messages::kHelpEstimatePlots))->type_name("FOLDER");
  line.app()
      .add_option("--tables", wanted.tables, in_words(messages::kHelpEstimateTables))
      ->type_name("FOLDER");
  within(line.app().add_option("--level", wanted.request.level, in_words(messages::kHelpEstimateLevel)), 0.5,
         0.9999)
      ->capture_default_str()
      ->type_name("P");
  whole_within(line.app().add_option("--seed", wanted.seed, in_words(messages::kHelpEstimateSeed)), 0)
      ->capture_default_str()
      ->type_name("N");
  within(line.app().add_option("--area", wanted.request.area_m2, in_words(messages::kHelpEstimateArea)), 0.1,
         1e9)
      ->type_name("M2");
  line.app()
      .add_option("--areas", wanted.areas, in_words(messages::kHelpEstimateAreas))
      ->excludes("--area")
      ->type_name("FILE");
  line.app().add_flag("--certain", wanted.certain, in_words(messages::kHelpEstimateCertain));
  line.take_threads();
}

// What is wrong with the command line is told before anything is read or fitted.
void complete_request(EstimateWanted& wanted, const CommandLine& line, Env& env) {
  if (wanted.catalogue.empty() == wanted.csv.empty())
    throw Error(ErrorKind::usage, "estimate",
                wanted.csv.empty() ? messages::kNothingToEstimate : messages::kTwoSources,
                messages::kCatalogueOrCsv);
  if (!wanted.csv.empty() && wanted.histories.any_but_gap())
    throw Error(ErrorKind::usage, "--csv", messages::kPlaceOfCatalogueOnly, messages::kLeavePlaceOut);
  wanted.request.period_gap_days = wanted.histories.gap_days();
  check_models(wanted.request);
  wanted.request.seed = static_cast<std::uint64_t>(wanted.seed);
  if (!wanted.card.empty()) wanted.request.card = card_from(wanted.card);
  if (!wanted.areas.empty())
    wanted.request.areas_m2 = read_pond_areas(text_of(wanted.areas, 1u << 20), wanted.areas);
  wanted.request.plots = line.json() || !wanted.plots.empty();
  if (!wanted.plots.empty()) check_can_make_folder(env, wanted.plots);
  if (!wanted.tables.empty()) check_can_make_folder(env, wanted.tables);
}

struct Estimated {
  models::EstimateInDoubt both;
  std::vector<std::string> about_identities, occasions;
  std::size_t animals = 0;
};

Estimated from_catalogue(const EstimateWanted& wanted, int threads, Console& console) {
  Catalogue catalogue = open_catalogue(wanted.catalogue, console, Access::read);
  const Identities who = catalogue.identities();
  const Statements said = catalogue.statements();
  HistoriesOptions where = wanted.histories.options();
  where.places = where.pond.empty();
  const CatalogueHistories made = capture_histories(said, who, where);
  Estimated out;
  for (const Message& caution : cautions(made.report)) out.about_identities.push_back(caution.words());
  out.occasions = made.histories.occasions;
  out.animals = made.histories.animal_count();
  std::vector<Doubt> doubts;
  if (!wanted.certain) doubts = doubts_of(catalogue, said, who, where, threads);
  out.both = numbers_of(said, who, doubts, where, wanted.request);
  if (wanted.certain) out.both.why = {messages::kTakenForCertain};
  return out;
}

Estimated from_csv(const EstimateWanted& wanted) {
  std::istringstream text(text_of(wanted.csv, 64u << 20));
  const models::CaptureHistories histories = models::read_histories_csv(text);
  Estimated out;
  out.occasions = histories.occasions;
  out.animals = histories.animal_count();
  out.both.report = models::estimate(histories, wanted.request);
  return out;
}

std::vector<std::string> write_files(const EstimateWanted& wanted, const models::EstimateReport& report,
                                     Env& env) {
  std::vector<std::string> files;
  if (!wanted.plots.empty()) files = write_plots(report, wanted.plots, env);
  if (wanted.tables.empty()) return files;
  const std::vector<std::string> more = write_tables(report, wanted.tables, env);
  files.insert(files.end(), more.begin(), more.end());
  return files;
}

nlohmann::json to_json(const Estimated& estimated, const std::vector<std::string>& files) {
  nlohmann::json document = models::to_json(estimated.both.report);
  document["histories"] = {{"animals", estimated.animals}, {"occasions", estimated.occasions}};
  document["identities"] = models::to_json_of_doubt(estimated.both);
  document["about_identities"] = estimated.about_identities;
  document["plot_files"] = files;
  return document;
}

void print_text(const Estimated& estimated, bool of_catalogue, Console& console) {
  const auto& [both, about_identities, occasions, animals] = estimated;
  const models::EstimateReport& report = both.report;
  // Where a night is open, the figure that takes it in is the one to quote.
  const bool open_night = !report.stopped_before.empty() && !both.plain.empty();
  std::string quoted;
  if (open_night)
    quoted = in_words(messages::kDrawnSeeBelow, {{"answer", both.plain}, {"night", report.stopped_before}});
  console.out << models::to_text(report, 100, quoted);
  if (of_catalogue) console.out << models::to_text_of_doubt(both);
  if (!about_identities.empty()) console.out << "\n" << in_words(messages::kAboutTheIdentities) << "\n";
  for (const std::string& caution : about_identities) console.out << "  - " << caution << "\n";
}

}  // namespace

int run_estimate(const Args& args, Console& console) {
  CommandLine line("estimate", messages::kEstimateDoes,
                   "evet estimate alder-fen --from 2024-03-01 --to 2024-06-30\n"
                   "  evet estimate --csv histories.csv --design closed --model chapman,schnabel\n"
                   "  evet estimate alder-fen --card model.json --plots plots");
  EstimateWanted wanted;
  add_options(line, wanted);
  if (const auto done = line.parse(args, console)) return *done;
  complete_request(wanted, line, console.env);
  const Estimated estimated =
      wanted.csv.empty() ? from_catalogue(wanted, line.threads(), console) : from_csv(wanted);
  const std::vector<std::string> files = write_files(wanted, estimated.both.report, console.env);
  if (line.json()) {
    print(console, to_json(estimated, files));
    return kDone;
  }
  print_text(estimated, wanted.csv.empty(), console);
  for (const std::string& file : files)
    console.out << in_words(messages::kWroteFile, {{"file", file}}) << "\n";
  return kDone;
}

}  // namespace evet
