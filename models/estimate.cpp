#include "models/estimate.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "models/ask/answer.h"
#include "models/ask/assumption_tests.h"
#include "models/ask/default_set.h"
#include "models/ask/densities.h"
#include "models/ask/fit_choice.h"
#include "models/ask/messages.h"
#include "models/ask/model_card.h"
#include "models/ask/registry.h"
#include "models/ask/warnings.h"
#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/choice/bootstrap.h"
#include "models/periods.h"
#include "models/report/plots.h"
#include "models/trend/trend.h"

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
    throw InputError(messages::kItemModels, messages::kNamedTwice, messages::kNameInOnePlace);
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
    const ModelEntry* kind = find_model(choice.name);
    if (!kind || (!design.empty() && kind->design != design)) {
      std::string names;
      for (const ModelEntry& one : registry())
        if (design.empty() || one.design == design) names += (names.empty() ? "" : " ") + one.name;
      const Message wrong = design.empty() ? Message(messages::kNotKnownForAny)
                                           : Message(messages::kNotKnownForDesign, {{"design", design}});
      throw InputError(Message(messages::kItemModelNamed, {{"name", choice.name}}), wrong,
                       {messages::kUseOneOf, {{"models", names}}});
    }
    design = kind->design;
  }
  return design;
}

// What an empty set of histories, or one occasion, allows to be said.
Estimate nothing_to_estimate(const CaptureHistories& histories, Quantity quantity, double level) {
  Estimate estimate = estimate_of({quantity});
  estimate.undefined =
      histories.animals.empty() ? messages::kNoAnimalCaught : messages::kNoneCouldBeCaughtAgain;
  estimate.intervals = {
      {static_cast<double>(histories.animal_count()), kInfinity, level, messages::kIntervalNoInformation}};
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
      measured_overdispersion(fit, robust ? data.robust().periods : data.releases(), robust, *card.seed);
  if (card.overdispersion) {
    report.overdispersion.used = *card.overdispersion;
    report.overdispersion.says = {messages::kOverdispersionGiven};
  }
  if (report.overdispersion.used > 1) report.criterion = "QAICc";
}

// Occasions by their labels, periods by their first and last occasion.
std::vector<Moment> moments_of(const CaptureHistories& histories, bool by_period) {
  if (!by_period || histories.primary.empty())
    return {histories.occasions.begin(), histories.occasions.end()};
  const std::vector<std::string>& labels = histories.dates.empty() ? histories.occasions : histories.dates;
  std::vector<Moment> moments;
  for (std::size_t j = 0; j < labels.size(); ++j)
    if (j > 0 && histories.primary[j] == histories.primary[j - 1])
      moments.back().last = labels[j];
    else
      moments.emplace_back(labels[j]);
  return moments;
}

// First of all warnings: what is open is not counted as not seen.
void say_where_it_stops(EstimateReport& report, const CaptureHistories& given) {
  if (report.stopped_before.empty()) return;
  const std::size_t open = given.first_unsettled();
  report.warnings.insert(
      report.warnings.begin(),
      Message(messages::kFiguresStopBefore, {{"occasion", report.stopped_before},
                                             {"n", static_cast<std::size_t>(given.unsettled[open])},
                                             {"used", open},
                                             {"all", given.occasion_count()}}));
}

EstimateReport nothing_settled(const CaptureHistories& given, double level) {
  EstimateReport report;
  report.design = "closed";
  report.level = level;
  report.stopped_before = given.occasions.front();
  report.answer = {estimate_of({Quantity::number})};
  report.answer.front().undefined = messages::kFirstNotSettled;
  report.answer.front().intervals = {{0, kInfinity, level, messages::kIntervalNoInformation}};
  say_where_it_stops(report, given);
  return report;
}

// Gathers the occasions into periods where the design may want them, and says so.
Remark find_periods(CaptureHistories& histories, const std::string& design, const EstimateRequest& request) {
  if (!(request.period_gap_days >= 0 && request.period_gap_days < 1e6))
    throw InputError(messages::kItemPeriodGap,
                     {messages::kIsValue, {{"value", std::to_string(request.period_gap_days)}}},
                     messages::kGiveDays);
  if (!histories.primary.empty() || design == "closed" || design == "open") return {};
  if (histories.dates.empty()) {
    if (request.period_gap_days > 0)
      throw InputError(messages::kItemPeriodGap, messages::kNoDates, messages::kGiveDatesOrPeriods);
    return {};
  }
  std::optional<Periods> periods;
  if (request.period_gap_days > 0)
    periods = periods_by_gap(histories.dates, request.period_gap_days);
  else if (design == "robust" ||
           days_between(histories.dates.front(), histories.dates.back()) > kLongestClosedDays)
    periods = periods_that_stand_out(histories.dates);
  if (!periods || periods->primary.back() == 0) return {};
  histories.primary = periods->primary;
  return Message(messages::kFallIntoPeriods, {{"periods", said_of(*periods)}});
}

// Numbers of four years or more have a trend of their own doubt.
void add_trend(EstimateReport& report) {
  const std::vector<Estimate> trend =
      yearly_trend(yearly_numbers(report.answer, report.moments), report.level);
  report.answer.insert(report.answer.end(), trend.begin(), trend.end());
}

// The design, and why it is that; what the histories hold.
EstimateReport begin_report(const CaptureHistories& given, const CaptureHistories& histories,
                            const ModelCard& card, const Remark& about_periods) {
  EstimateReport report;
  report.level = *card.level;
  const std::size_t settled = given.first_unsettled();
  if (settled < given.occasion_count()) report.stopped_before = given.occasions[settled];
  report.animals = static_cast<double>(histories.animal_count());
  report.occasions = static_cast<double>(histories.occasion_count());
  report.captures = static_cast<double>(std::count(histories.caught.begin(), histories.caught.end(), 1));
  report.design = design_of(card.models, card.design);
  if (report.design.empty()) {
    const Suited suited = suited_design(histories);
    report.design = suited.design;
    report.why = {about_periods.empty() ? suited.why : about_periods.message()};
  } else if (card.models.empty()) {
    report.why = {Message(messages::kDesignAskedFor, {{"design", report.design}})};
  }
  report.moments = moments_of(histories, report.design == "robust");
  return report;
}

void say_that_nothing_is_told(EstimateReport& report, const CaptureHistories& histories) {
  const Quantity first = report.design == "closed" ? Quantity::number : Quantity::survival;
  report.answer = {nothing_to_estimate(histories, first, report.level)};
  report.warnings = {histories.animals.empty() ? messages::kNothingToEstimateFrom : messages::kSurveyAgain};
}

// A second interval for the number of the best model, by drawing from it.
void add_bootstrap(std::vector<FittedRow>& rows, int occasions, const ModelCard& card) {
  const FittedRow* best = best_row(rows, "closed");
  if (!best || card.bootstrap == 0) return;
  const Bootstrap draws =
      bootstrap_population(*best->model, occasions, card.bootstrap, *card.seed, *card.level);
  for (FittedRow& fitted : rows)
    if (&fitted == best) {
      fitted.row.estimates.front().intervals.push_back(draws.percentile);
      fitted.row.estimates.front().details["se_bootstrap"] = draws.standard_error;
    }
}

}  // namespace

std::vector<std::string> model_names(const std::string& design) {
  if (design != "closed" && design != "open" && design != "robust")
    throw InputError(Message(messages::kItemDesignNamed, {{"name", design}}), messages::kNoSuchModel,
                     messages::kUseADesign);
  std::vector<std::string> names;
  for (const ModelEntry& kind : registry())
    if (kind.design == design) names.push_back(kind.name);
  return names;
}

EstimateReport estimate(const CaptureHistories& given, const EstimateRequest& request) {
  given.check();
  check_areas(request);
  const ModelCard card = card_of(request);
  const std::size_t settled = given.first_unsettled();
  if (settled == 0) return nothing_settled(given, *card.level);
  CaptureHistories histories = settled < given.occasion_count() ? select_occasions(given, 0, settled) : given;
  const Remark about_periods = find_periods(histories, design_of(card.models, card.design), request);
  const bool chosen = !card.models.empty();
  EstimateReport report = begin_report(given, histories, card, about_periods);
  SurveyData data(histories);
  if (report.design != "closed")
    report.time = time_between(histories, report.design == "robust", card.survival_per);
  if (report.design == "robust") data.robust();  // refuses histories without primary periods
  if (histories.animals.empty() || histories.occasion_count() < 2) {
    say_that_nothing_is_told(report, histories);
    say_where_it_stops(report, given);
    return report;
  }
  std::vector<ModelChoice> choices = card.models;
  if (!chosen) {
    const DefaultSet set = default_set(report.design, data);
    choices = set.models;
    report.why.insert(report.why.end(), set.why.begin(), set.why.end());
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
  weigh_rows(rows, report.overdispersion.used, !card.overdispersion);
  add_bootstrap(rows, static_cast<int>(histories.occasion_count()), card);
  report.answer = averaged_answer(rows, report.level);
  if (!chosen && report.design == "closed" && histories.occasion_count() == 2)
    report.answer = {rows.front().row.estimates.front()};
  if (report.design != "closed") add_trend(report);
  add_densities(report.answer, histories, request);
  report.nested = nested_tests(rows, report.overdispersion.used);
  for (const FittedRow& fitted : rows) report.table.push_back(fitted.row);
  report.assumptions = report_assumptions(report);
  report.warnings = report_warnings(report, data);
  say_where_it_stops(report, given);
  if (request.plots) report.plots = make_plots(report, rows, data);
  return report;
}

}  // namespace evet::models
