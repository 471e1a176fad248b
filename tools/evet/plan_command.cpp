#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <ostream>
#include <span>
#include <sstream>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/histories.h"
#include "models/estimate.h"
#include "models/plan/survey_plan.h"
#include "tools/evet/commands.h"
#include "tools/words/text.h"
#include "tools/words/text_table.h"

namespace evet {
namespace {

// "3-8" or "3,5,8", or both: "3-5,8,12".
std::vector<int> numbers_in(const std::string& option, const std::string& text) {
  std::vector<int> out;
  std::istringstream parts(text);
  for (std::string part; std::getline(parts, part, ',');) {
    int from = 0, to = 0;
    char dash = 0, rest = 0;
    std::istringstream one(part);
    const bool single = static_cast<bool>(one >> from) && one.eof();
    if (single) to = from;
    const bool range = !single && static_cast<bool>(one >> dash >> to) && dash == '-' && !(one >> rest);
    if (!(single || range) || from > to || from < 1 || to - from > 100)
      throw Error(ErrorKind::usage, option, evet::quoted(part) + " is no number and no range of numbers",
                  "write it as 3-8 or as 3,5,8");
    for (int n = from; n <= to; ++n) out.push_back(n);
  }
  if (out.empty()) throw Error(ErrorKind::usage, option, "it is empty", "write it as 3-8 or as 3,5,8");
  return out;
}

// What the catalogue's own nights say of numbers and of the chance of a catch, under the model that plans use.
void take_from(Catalogue& catalogue, const HistoriesOptions& options, bool animals_given, bool chance_given,
               models::PlanRequest& plan) {
  const CatalogueHistories made = capture_histories(catalogue.statements(), catalogue.identities(), options);
  models::EstimateRequest request;
  request.design = "closed", request.models = {"constant"}, request.plots = false;
  const models::EstimateReport report = models::estimate(made.histories, request);
  const auto& estimates = report.table.front().estimates;
  const auto find = [&](const std::string& quantity) -> double {
    for (const models::Estimate& one : estimates)
      if (one.parameter == quantity && std::isfinite(one.value)) return one.value;
    throw Error(ErrorKind::bad_input, catalogue.folder().string(), "its nights give no estimate to plan from",
                "say --animals and --chance");
  };
  if (!animals_given) plan.animals = find("N");
  if (!chance_given) plan.chance = find("p");
}

std::string share(double value) {
  return std::isfinite(value) ? fmt::format("{:.0f} %", std::abs(100 * value) < 0.5 ? 0.0 : 100 * value)
                              : "-";
}

void tell(const models::SurveyPlan& plan, const models::PlanRequest& request, Console& console) {
  console.out << fmt::format(
      "Planned for {:.0f} animals, each caught on a night with a chance of {:.3g}{}; {} surveys "
      "drawn for each row.\n\n",
      request.animals, request.chance,
      request.traps.empty() ? "" : " in " + counted(static_cast<std::size_t>(request.traps_now), "trap"),
      request.draws);
  TextTable table({">nights", ">traps", ">chance", ">captures", ">ever caught", ">error", ">bias",
                   ">interval holds", ">no estimate", ">large sample", ""});
  for (const models::PlanRow& row : plan.rows)
    table.row({std::to_string(row.nights), request.traps.empty() ? "" : std::to_string(row.traps),
               fmt::format("{:.3g}", row.chance), fmt::format("{:.0f}", row.captures), share(row.seen),
               share(row.relative_error), share(row.relative_bias), share(row.coverage),
               share(row.no_estimate), share(row.large_sample), row.reaches ? "enough" : ""});
  table.print(console.out, console.colour);
  console.out << "\n" << plan.says.words() << "\nThis holds if\n";
  for (const Message& one : plan.assumptions) console.out << "  - " << one.words() << "\n";
  console.out << "Source: " << plan.source << "\n"
              << "The licence says how many nights and traps may be set; a plan does not.\n";
}

nlohmann::json as_json(const models::SurveyPlan& plan, const models::PlanRequest& request) {
  nlohmann::json rows = nlohmann::json::array();
  const auto number = [](double x) { return std::isfinite(x) ? nlohmann::json(x) : nlohmann::json(nullptr); };
  for (const models::PlanRow& row : plan.rows)
    rows.push_back({{"nights", row.nights},
                    {"traps", row.traps},
                    {"chance", row.chance},
                    {"captures", row.captures},
                    {"ever_caught", row.seen},
                    {"relative_error", number(row.relative_error)},
                    {"relative_bias", number(row.relative_bias)},
                    {"coverage", number(row.coverage)},
                    {"no_estimate", row.no_estimate},
                    {"large_sample_error", number(row.large_sample)},
                    {"enough", row.reaches}});
  return {{"animals", request.animals},
          {"chance", request.chance},
          {"wanted", request.wanted},
          {"rows", rows},
          {"enough", plan.enough ? nlohmann::json(*plan.enough) : nlohmann::json(nullptr)},
          {"says", plan.says.words()},
          {"assumptions", models::each_in_words(plan.assumptions)},
          {"source", plan.source}};
}

// What the command line asks for.
struct PlanWanted {
  std::string catalogue, nights = "3-6,8,10", traps, plot;
  models::PlanRequest request;
  HistoriesOptions where;  // of the catalogue
  CLI::Option *animals = nullptr, *chance = nullptr;

  void declare(CLI::App& app) {
    app.add_option("CATALOGUE", catalogue, "Take numbers and chance from its nights")->type_name("FOLDER");
    animals = app.add_option("--animals", request.animals, "How many there may be")->type_name("NUMBER");
    chance = app.add_option("--chance", request.chance, "Of one animal being caught on one night")
                 ->type_name("SHARE");
    app.add_option("--nights", nights, "Numbers of nights to try")->type_name("LIST")->capture_default_str();
    app.add_option("--traps-now", request.traps_now, "Traps that gave that chance")->type_name("NUMBER");
    app.add_option("--traps", traps, "Numbers of traps to try")->type_name("LIST");
    app.add_option("--spread", request.spread,
                   "How far animals differ: standard deviation of the chance's logit")
        ->type_name("NUMBER");
    app.add_option("--wanted", request.wanted, "The error that is wanted")
        ->type_name("SHARE")
        ->capture_default_str();
    app.add_option("--draws", request.draws, "Surveys drawn for each row")
        ->type_name("NUMBER")
        ->capture_default_str();
    app.add_option("--seed", request.seed, "Of the random numbers")
        ->type_name("NUMBER")
        ->capture_default_str();
    app.add_option("--plot", plot, "Write the plot to this SVG file")->type_name("FILE");
    app.add_option("--site", where.site, "Of the catalogue: this site alone")->type_name("SITE");
    app.add_option("--pond", where.pond, "This pond of it")->type_name("POND");
    app.add_option("--from", where.from, "Its nights from this date")->type_name("DATE");
    app.add_option("--to", where.to, "and up to this one")->type_name("DATE");
  }

  // The survey that is asked about; refused before anything is drawn where it cannot be.
  models::PlanRequest request_of(Console& console) const {
    if (catalogue.empty() && animals->count() == 0)
      throw Error(ErrorKind::usage, "--animals", "it is missing",
                  "say how many there may be, or name a catalogue");
    if (catalogue.empty() && chance->count() == 0)
      throw Error(ErrorKind::usage, "--chance", "it is missing",
                  "say it, as in --chance 0.2, or name a catalogue");
    models::PlanRequest out = request;
    out.nights = numbers_in("--nights", nights);
    if (!traps.empty()) out.traps = numbers_in("--traps", traps);
    if (!plot.empty()) check_can_write_file(console.env, plot);
    if (!catalogue.empty()) {
      Catalogue opened = open_catalogue(catalogue, console, Access::read);
      take_from(opened, where, animals->count() > 0, chance->count() > 0, out);
    }
    return out;
  }
};

}  // namespace

int run_plan(const Args& args, Console& console) {
  CommandLine line(
      "plan",
      "Plans a survey: how many nights, and how many traps, it takes to estimate numbers within a wanted\n"
      "error. Surveys of an assumed pond are drawn and each is estimated as a real one would be. With a\n"
      "catalogue, numbers and the chance of a catch come from its own nights. The error is that of the\n"
      "estimate against the truth, root mean square, as a share of the truth.",
      "evet plan --animals 150 --chance 0.15 --nights 3-8 --wanted 0.2\n"
      "  evet plan alder-fen --from 2024-03-01 --traps-now 12 --traps 12,24 --plot plan.svg");
  PlanWanted wanted;
  wanted.declare(line.app());
  line.take_threads();
  if (const auto done = line.parse(args, console)) return *done;
  const models::PlanRequest request = wanted.request_of(console);
  const models::SurveyPlan plan = models::plan_survey(request, line.threads());
  const std::string chart = models::plan_chart(plan, request);
  if (!wanted.plot.empty()) write_file_durably(console.env, wanted.plot, std::as_bytes(std::span(chart)));
  if (line.json())
    print(console, as_json(plan, request));
  else
    tell(plan, request, console);
  return kDone;
}

}  // namespace evet
