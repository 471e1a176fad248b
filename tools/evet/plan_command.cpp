#include <fmt/format.h>
#include <cmath>
#include <ostream>
#include <span>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/histories.h"
#include "models/plan/survey_plan.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/numbers/planned_survey.h"
#include "tools/words/numbers_listed.h"
#include "tools/words/text.h"
#include "tools/words/text_table.h"

namespace evet {
namespace {

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
      throw Error(ErrorKind::usage, "--animals", messages::kIsMissing, messages::kSayAnimals);
    if (catalogue.empty() && chance->count() == 0)
      throw Error(ErrorKind::usage, "--chance", messages::kIsMissing, messages::kSayChance);
    models::PlanRequest out = request;
    out.nights = numbers_listed("--nights", nights);
    if (!traps.empty()) out.traps = numbers_listed("--traps", traps);
    if (!plot.empty()) check_can_write_file(console.env, plot);
    if (!catalogue.empty()) {
      Catalogue opened = open_catalogue(catalogue, console, Access::read);
      const CatalogueHistories made = capture_histories(opened.statements(), opened.identities(), where);
      take_from_nights(made.histories, opened.folder().string(),
                       {.animals = animals->count() > 0, .chance = chance->count() > 0}, out);
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
    print(console, to_json(plan, request));
  else
    tell(plan, request, console);
  return kDone;
}

}  // namespace evet
