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
#include "tools/report/messages.h"
#include "tools/words/in_words.h"
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
  const std::vector<Message::Argument> planned = {{"animals", fmt::format("{:.0f}", request.animals)},
                                                  {"chance", fmt::format("{:.3g}", request.chance)},
                                                  {"traps", counted(request.traps_now, messages::kTraps)},
                                                  {"draws", fmt::format("{}", request.draws)}};
  console.out << in_words(request.traps.empty() ? messages::kPlannedFor : messages::kPlannedForTraps, planned)
              << "\n\n";
  std::vector<std::string> heads;
  for (const MessageText* head :
       {&messages::kPlanNights, &messages::kPlanTraps, &messages::kPlanChance, &messages::kPlanCaptures,
        &messages::kPlanEverCaught, &messages::kPlanError, &messages::kPlanBias,
        &messages::kPlanIntervalHolds, &messages::kPlanNoEstimate, &messages::kPlanLargeSample})
    heads.push_back(">" + in_words(*head));
  heads.emplace_back();  // what is enough
  TextTable table(heads);
  for (const models::PlanRow& row : plan.rows)
    table.row({std::to_string(row.nights), request.traps.empty() ? "" : std::to_string(row.traps),
               fmt::format("{:.3g}", row.chance), fmt::format("{:.0f}", row.captures), share(row.seen),
               share(row.relative_error), share(row.relative_bias), share(row.coverage),
               share(row.no_estimate), share(row.large_sample),
               row.reaches ? in_words(messages::kPlanEnough) : ""});
  table.print(console.out, console.colour);
  console.out << "\n" << plan.says.words() << "\n" << in_words(messages::kThisHoldsIf) << "\n";
  for (const Message& one : plan.assumptions) console.out << "  - " << one.words() << "\n";
  console.out << in_words(messages::kPlanSource, {{"source", plan.source}}) << "\n"
              << in_words(messages::kLicenceSaysHowMany) << "\n";
}

// What the command line asks for.
struct PlanWanted {
  std::string catalogue, nights = "3-6,8,10", traps, plot;
  models::PlanRequest request;
  HistoriesOptions where;  // of the catalogue
  CLI::Option *animals = nullptr, *chance = nullptr;

  void declare(CLI::App& app) {
    app.add_option("CATALOGUE", catalogue, in_words(messages::kHelpPlanTheCatalogue))->type_name("FOLDER");
    animals = app.add_option("--animals", request.animals, in_words(messages::kHelpPlanAnimals))
                  ->type_name("NUMBER");
    chance =
        app.add_option("--chance", request.chance, in_words(messages::kHelpPlanChance))->type_name("SHARE");
    app.add_option("--nights", nights, in_words(messages::kHelpPlanNights))
        ->type_name("LIST")
        ->capture_default_str();
    app.add_option("--traps-now", request.traps_now, in_words(messages::kHelpPlanTrapsNow))
        ->type_name("NUMBER");
    app.add_option("--traps", traps, in_words(messages::kHelpPlanTraps))->type_name("LIST");
    app.add_option("--spread", request.spread, in_words(messages::kHelpPlanSpread))->type_name("NUMBER");
    app.add_option("--wanted", request.wanted, in_words(messages::kHelpPlanWanted))
        ->type_name("SHARE")
        ->capture_default_str();
    app.add_option("--draws", request.draws, in_words(messages::kHelpPlanDraws))
        ->type_name("NUMBER")
        ->capture_default_str();
    app.add_option("--seed", request.seed, in_words(messages::kHelpPlanSeed))
        ->type_name("NUMBER")
        ->capture_default_str();
    app.add_option("--plot", plot, in_words(messages::kHelpPlanPlot))->type_name("FILE");
    app.add_option("--site", where.site, in_words(messages::kHelpPlanSite))->type_name("SITE");
    app.add_option("--pond", where.pond, in_words(messages::kHelpPlanPond))->type_name("POND");
    app.add_option("--from", where.from, in_words(messages::kHelpPlanFrom))->type_name("DATE");
    app.add_option("--to", where.to, in_words(messages::kHelpPlanTo))->type_name("DATE");
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
  CommandLine line("plan", messages::kPlanDoes,
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
