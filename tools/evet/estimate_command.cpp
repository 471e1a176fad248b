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
#include "tools/evet/commands.h"
#include "tools/evet/histories_wanted.h"
#include "tools/words/history_cautions.h"

namespace evet {
namespace {

std::string text_of(const std::string& path, size_t max_bytes) {
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

// One SVG a plot; their names.
std::vector<std::string> write_plots(const models::EstimateReport& report, const std::string& folder,
                                     Env& env) {
  std::vector<std::string> files;
  env.make_folders(folder);
  for (const models::Plot& plot : report.plots) {
    const std::string file =
        (std::filesystem::path(folder) / ("plot-" + std::to_string(files.size() + 1) + ".svg")).string();
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
  std::string catalogue_folder, csv, card, plots;
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
      ->delimiter(',')
      ->allow_extra_args(false)
      ->type_name("NAME,...");
  line.app()
      .add_option("--card", card, "A model card: JSON that states design and models")
      ->type_name("FILE");
  line.app().add_option("--plots", plots, "Folder for the plots, as SVG")->type_name("FOLDER");
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
  if (!card.empty()) request.card = card_from(card);
  request.plots = line.json() || !plots.empty();
  if (!plots.empty()) check_can_make_folder(console.env, plots);

  models::CaptureHistories histories;
  std::vector<std::string> about_identities;
  if (csv.empty()) {
    Catalogue catalogue = open_catalogue(catalogue_folder, console, Access::read);
    const Identities who = catalogue.identities();
    CatalogueHistories made = capture_histories(catalogue.statements(), who, wanted.options());
    about_identities = cautions(made.report);
    histories = std::move(made.histories);
  } else {
    std::istringstream text(text_of(csv, 64u << 20));
    histories = models::read_histories_csv(text);
  }
  const models::EstimateReport report = models::estimate(histories, request);
  std::vector<std::string> files;
  if (!plots.empty()) files = write_plots(report, plots, console.env);
  if (line.json()) {
    nlohmann::json document = models::to_json(report);
    document["histories"] = {{"animals", histories.animal_count()}, {"occasions", histories.occasions}};
    document["about_identities"] = about_identities;
    document["plot_files"] = files;
    print(console, document);
    return kDone;
  }
  console.out << models::to_text(report);
  if (!about_identities.empty()) console.out << "\nAbout the identities\n";
  for (const std::string& caution : about_identities) console.out << "  - " << caution << "\n";
  for (const std::string& file : files) console.out << "Wrote " << file << "\n";
  return kDone;
}

}  // namespace evet
