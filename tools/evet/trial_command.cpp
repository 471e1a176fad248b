#include <filesystem>
#include <ostream>
#include <span>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/base/moment.h"
#include "matcher/base/version.h"
#include "matcher/base/write_durably.h"
#include "matcher/search/likelihood.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/evet/progress.h"
#include "tools/evet/wrong_usage.h"
#include "tools/trial/trial_report.h"
#include "tools/words/costs_words.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using trial::TrialReport;

struct Wanted {
  std::string out, plots, costs, reason;
  bool refit = false, forget = false;
  trial::ScoreOptions score;
};

void check(const Wanted& wanted, Env& env) {
  if (wanted.refit && wanted.forget)
    throw Error(ErrorKind::usage, "--forget-refit", messages::kForgetOrRefit, messages::kGiveOneOfThem);
  if (!wanted.out.empty()) check_can_write_file(env, wanted.out);
  if (!wanted.plots.empty()) check_can_make_folder(env, wanted.plots);
}

int forget(Catalogue& catalogue, const Wanted& wanted, const CommandLine& line, Console& console) {
  const CalibrationInForce found = calibration_in_force(catalogue);
  if (!found.calibration && !found.of_other_weights)
    throw Error(ErrorKind::not_found, line.catalogue(), messages::kNoCalibrationToForget,
                messages::kAsShipped);
  const auto written =
      catalogue.append(line.actor(), {Withdrawal{found.calibration_by.entry, wanted.reason}});
  const bool another = calibration_in_force(catalogue).calibration.has_value();
  if (line.json())
    print(console, {{"entry", written.front().id.value},
                    {"withdraws", found.calibration_by.entry.value},
                    {"own_calibration", another}});
  else
    console.out << in_words(another ? messages::kRefitTakenBackToEarlier : messages::kRefitTakenBackToOwn)
                << "\n";
  return kDone;
}

TrialReport tried(Catalogue& catalogue, const Wanted& wanted, const CommandLine& line, Console& console) {
  TrialReport report;
  report.catalogue = catalogue.title().empty() ? line.catalogue() : catalogue.title();
  report.ledger_head = catalogue.head_hash();
  report.made_at = to_text(console.env.now());
  report.program = kProgram;
  report.search = search_options_of(catalogue);
  // What is to be learned is learned on the ratios as shipped.
  if (wanted.refit) report.search.calibration = {};
  report.own_calibration = !report.search.calibration.changes_nothing();
  if (!wanted.costs.empty())
    set_costs(report.search, costs_from_words(wanted.costs, costs_of(report.search)));
  {
    Progress bar(console, in_words(messages::kReadingPatterns));
    report.known = trial::known_captures(catalogue, line.threads(),
                                         [&](size_t done, size_t all) { bar.show(done, all); });
  }
  {
    Progress bar(console, in_words(messages::kSearching));
    trial::RunOptions run;
    run.search = report.search;
    run.threads = line.threads();
    run.progress = [&](size_t done, size_t all) { bar.show(done, all); };
    report.trial = trial::run(report.known.captures, run);
  }
  trial::fill(report, wanted.score);
  if (wanted.refit) {
    trial::RefitOptions options;
    options.resamples = wanted.score.resamples, options.seed = wanted.score.seed;
    options.lowest = shipped_matching_model().lowest, options.highest = shipped_matching_model().highest;
    report.refit = trial::refit(report.trial, options);
  }
  return report;
}

// The page, and one SVG a plot; the plots' names.
std::vector<std::string> write_files(const TrialReport& report, const Wanted& wanted, Env& env) {
  std::vector<std::string> files;
  if (!wanted.plots.empty()) {
    env.make_folders(wanted.plots);
    for (const trial::Picture& picture : trial::pictures(report.scores)) {
      files.push_back((fs::path(wanted.plots) / (picture.name + ".svg")).string());
      write_file_durably(env, files.back(), std::as_bytes(std::span(picture.svg)));
    }
  }
  if (!wanted.out.empty()) {
    const std::string page = trial::page_of(report);
    write_file_durably(env, wanted.out, std::as_bytes(std::span(page)));
  }
  return files;
}

// The entry of a refit that helps; empty where there is none.
std::string record_refit(Catalogue& catalogue, const Actor& actor, const TrialReport& report) {
  if (!report.refit || !report.refit->refused.empty()) return {};
  const trial::Refit& r = *report.refit;
  const OwnCalibration own{r.map,        matching_model_id(), static_cast<std::int64_t>(r.individuals),
                           r.same_pairs, r.different_pairs,   r.before,
                           r.after};
  return catalogue.append(actor, {entry_of(own)}).front().id.value;
}

void answer(const TrialReport& report, const Wanted& wanted, const std::vector<std::string>& files,
            const std::string& entry, const CommandLine& line, Console& console) {
  if (line.json()) {
    nlohmann::json document = trial::to_json(report);
    document["page"] = wanted.out.empty() ? nlohmann::json() : nlohmann::json(wanted.out);
    document["plot_files"] = files;
    if (!entry.empty()) document["refit"]["entry"] = entry;
    print(console, document);
    return;
  }
  console.out << trial::text_of(report, console.colour);
  if (!entry.empty())
    console.out << in_words(messages::kRefitRecorded, {{"entry", entry}, {"catalogue", line.catalogue()}})
                << "\n";
  for (const std::string& file : files)
    console.out << in_words(messages::kWroteFile, {{"file", file}}) << "\n";
  if (!wanted.out.empty()) console.out << in_words(messages::kWroteFile, {{"file", wanted.out}}) << "\n";
}

}  // namespace

int run_trial(const Args& args, Console& console) {
  CommandLine line("trial", messages::kTrialDoes,
                   "evet trial alder-fen --out trial.html --plots plots\n"
                   "  evet trial alder-fen --refit --by KM");
  line.take_catalogue();
  line.take_actor();
  line.take_threads();
  Wanted wanted;
  line.app().add_option("--out", wanted.out, in_words(messages::kHelpTrialOut))->type_name("FILE");
  line.app().add_option("--plots", wanted.plots, in_words(messages::kHelpEstimatePlots))->type_name("FOLDER");
  line.app().add_option("--costs", wanted.costs, in_words(messages::kCostsHelp))->type_name("WORDS");
  line.app().add_flag("--refit", wanted.refit, in_words(messages::kHelpTrialRefit));
  line.app().add_flag("--forget-refit", wanted.forget, in_words(messages::kHelpTrialForgetRefit));
  line.app().add_option("--reason", wanted.reason, in_words(messages::kHelpTrialReason))->type_name("WORDS");
  whole_within(
      line.app().add_option("--resamples", wanted.score.resamples, in_words(messages::kHelpTrialResamples)),
      100, 100'000)
      ->capture_default_str()
      ->type_name("N");
  line.app()
      .add_option("--seed", wanted.score.seed, in_words(messages::kHelpTrialSeed))
      ->capture_default_str()
      ->type_name("N");
  if (const auto done = line.parse(args, console)) return *done;
  check(wanted, console.env);
  if (!wanted.costs.empty()) costs_from_words(wanted.costs);  // wrong words are told before the searches

  Catalogue catalogue =
      open_catalogue(line.catalogue(), console, wanted.refit || wanted.forget ? Access::write : Access::read);
  if (wanted.forget) return forget(catalogue, wanted, line, console);
  const Actor actor = wanted.refit ? line.actor() : Actor{};
  const TrialReport report = tried(catalogue, wanted, line, console);

  const std::vector<std::string> files = write_files(report, wanted, console.env);
  const std::string entry = record_refit(catalogue, actor, report);
  answer(report, wanted, files, entry, line, console);
  const bool refused = report.refit && !report.refit->refused.empty();
  return report.holds() && !refused ? kDone : kDoesNotHold;
}

}  // namespace evet
