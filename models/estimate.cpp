#include "models/estimate.h"

#include <algorithm>
#include <cmath>

#include "models/ask/answer.h"
#include "models/ask/assumption_tests.h"
#include "models/ask/default_set.h"
#include "models/ask/fit_choice.h"
#include "models/ask/warnings.h"
#include "models/base/input_error.h"
#include "models/choice/bootstrap.h"
#include "models/report/plots.h"

namespace evet::models {
namespace {

// The request with the card taken in; names checked.
ModelCard card_of(const EstimateRequest& request) {
  ModelCard card;
  if (!request.card.is_null()) card = read_model_card(request.card);
  if (request.card.is_null() || !request.card.contains("design")) card.design = request.design;
  if (!card.level) card.level = request.level;
  if (!card.seed) card.seed = request.seed;
  normal_point(*card.level);
  if (card.design != "auto") model_names(card.design);
  if (!request.models.empty() && !card.models.empty())
    throw InputError("models", "the request and the card both name some", "name them in one place");
  for (const std::string& name : request.models) {
    ModelChoice choice;
    choice.name = name;
    card.models.push_back(choice);
  }
  return card;
}

// The design that the named models are for; one wrong name or two designs are refused.
std::string design_of(const std::vector<ModelChoice>& models, const std::string& asked) {
  std::string design = asked == "auto" ? "" : asked;
  for (const ModelChoice& choice : models) {
    const ModelKind* kind = nullptr;
    for (const ModelKind& one : model_kinds())
      if (one.name == choice.name) kind = &one;
    const std::string known_for = design.empty() ? "any design" : "a " + design + " population";
    if (!kind || (!design.empty() && kind->design != design)) {
      std::string right = "use";
      for (const ModelKind& one : model_kinds())
        if (design.empty() || one.design == design) right += " " + one.name;
      throw InputError("model '" + choice.name + "'", "it is not known for " + known_for, right);
    }
    design = kind->design;
  }
  return design;
}

// What an empty set of histories, or one occasion, allows to be said.
Estimate nothing_to_estimate(const CaptureHistories& histories, Quantity quantity, double level) {
  Estimate estimate = estimate_of({quantity});
  estimate.undefined = histories.animals.empty()
                           ? "no animal was caught"
                           : "there is one occasion, so no animal could be caught again";
  estimate.intervals = {{static_cast<double>(histories.animal_count()), kInfinity, level, "no information"}};
  return estimate;
}

void measure_fit(EstimateReport& report, SurveyData& data, const ModelCard& card) {
  if (report.design == "closed") {
    report.tests = closed_tests(data.histories());
    return;
  }
  const bool robust = report.design == "robust";
  const CaptureHistories& rows = robust ? data.robust().by_period : data.histories();
  const FitTest fit = fit_test(rows);
  report.tests = open_tests(fit);
  report.overdispersion =
      measured_overdispersion(fit, robust ? data.robust().periods : data.releases(), *card.seed);
  if (card.overdispersion) {
    report.overdispersion.used = *card.overdispersion;
    report.overdispersion.says = "The overdispersion was given, not measured.";
  }
  if (report.overdispersion.used > 1) report.criterion = "QAICc";
}

}  // namespace

std::vector<std::string> model_names(const std::string& design) {
  if (design != "closed" && design != "open" && design != "robust")
    throw InputError("design '" + design + "'", "it is not known", "use auto, closed, open or robust");
  std::vector<std::string> names;
  for (const ModelKind& kind : model_kinds())
    if (kind.design == design) names.push_back(kind.name);
  return names;
}

EstimateReport estimate(const CaptureHistories& histories, const EstimateRequest& request) {
  histories.check();
  const ModelCard card = card_of(request);
  EstimateReport report;
  report.level = *card.level;
  report.animals = static_cast<double>(histories.animal_count());
  report.occasions = static_cast<double>(histories.occasion_count());
  report.captures = static_cast<double>(std::count(histories.caught.begin(), histories.caught.end(), 1));
  const bool chosen = !card.models.empty();
  report.design = design_of(card.models, card.design);
  if (report.design.empty()) {
    const Suited suited = suited_design(histories);
    report.design = suited.design;
    report.why = suited.why;
  } else if (!chosen) {
    report.why = "The " + report.design + " design was asked for.";
  }
  SurveyData data(histories);
  if (report.design != "closed")
    report.time = time_between(histories, report.design == "robust", card.survival_per);
  if (report.design == "robust") data.robust();  // refuses histories without primary periods
  if (histories.animals.empty() || histories.occasion_count() < 2) {
    report.answer = {nothing_to_estimate(
        histories, report.design == "closed" ? Quantity::number : Quantity::survival, report.level)};
    report.warnings = {histories.animals.empty()
                           ? "No animal was caught: there is nothing to estimate from."
                           : "There is one occasion: survey again to estimate numbers."};
    return report;
  }
  std::vector<ModelChoice> choices = card.models;
  if (!chosen) {
    const DefaultSet set = default_set(report.design, data);
    choices = set.models;
    report.why += (report.why.empty() ? "" : " ") + set.why;
  }
  measure_fit(report, data, card);
  ModelOptions options;
  options.level = report.level;
  options.seed = *card.seed;
  options.overdispersion = report.overdispersion.used;
  options.interval_lengths = report.time.lengths;
  std::vector<FittedRow> rows;
  for (const ModelChoice& choice : choices)
    for (const ModelChoice& one : usual_variants(choice, data))
      rows.push_back(fit_choice(data, one, options));
  const auto bootstrapped = [&] {
    const FittedRow* best = best_row(rows, "closed");
    if (!best || card.bootstrap == 0) return;
    const Bootstrap draws = bootstrap_population(*best->model, static_cast<int>(histories.occasion_count()),
                                                 card.bootstrap, *card.seed, report.level);
    for (FittedRow& fitted : rows)
      if (&fitted == best) {
        fitted.row.estimates.front().intervals.push_back(draws.percentile);
        fitted.row.estimates.front().details["se_bootstrap"] = draws.standard_error;
      }
  };
  weigh_rows(rows, report.overdispersion.used, !card.overdispersion);
  bootstrapped();
  report.answer = averaged_answer(rows, report.level);
  if (!chosen && report.design == "closed" && histories.occasion_count() == 2)
    report.answer = {rows.front().row.estimates.front()};
  report.nested = nested_tests(rows, report.overdispersion.used);
  for (const FittedRow& fitted : rows) report.table.push_back(fitted.row);
  report.assumptions = report_assumptions(report);
  report.warnings = report_warnings(report, data);
  if (request.plots) report.plots = make_plots(report, rows, data);
  return report;
}

}  // namespace evet::models
