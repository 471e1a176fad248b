#include "models/identity/estimate_in_doubt.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "models/ask/answer.h"
#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/choice/averaged_limits.h"
#include "models/identity/combine_draws.h"
#include "models/identity/messages.h"
#include "models/report/plain_answer.h"

namespace evet::models {
namespace {

constexpr std::size_t kManyCells = 20000;      // animals x occasions from which on an estimate takes seconds
constexpr std::size_t kTooManyCells = 400000;  // and minutes
constexpr int kDraws = 20, kFewDraws = 5;
constexpr double kLeastWeight = 0.01;  // of a model that is fitted to the draws

std::size_t cells_of(const CaptureHistories& histories) {
  return histories.animal_count() * histories.occasion_count();
}

// Has the row some weight among its family, or among those of it that a figure of the answer rests on?
bool counts(const ModelRow& row, const EstimateReport& report) {
  std::vector<const ModelRow*> family;
  for (const ModelRow& one : report.table)
    if (one.has_likelihood && one.family == row.family && one.weight > 0) family.push_back(&one);
  const auto counts_among = [&](const std::vector<const ModelRow*>& rows) {
    double all = 0;
    for (const ModelRow* one : rows) all += one->weight;
    return std::find(rows.begin(), rows.end(), &row) != rows.end() && row.weight >= kLeastWeight * all;
  };
  return counts_among(family) ||
         std::any_of(report.answer.begin(), report.answer.end(), [&](const Estimate& estimate) {
           return counts_among(rows_behind(estimate.what, family));
         });
}

// Models that count or are the simplest of their family: the rest would take most of the time for nothing.
std::vector<const ModelRow*> rows_to_draw(const EstimateReport& report) {
  std::vector<const ModelRow*> rows;
  std::vector<std::string> families;
  for (const ModelRow& row : report.table) {
    const bool first =
        row.has_likelihood && std::find(families.begin(), families.end(), row.family) == families.end();
    if (first) families.push_back(row.family);
    if (!row.has_likelihood || first || counts(row, report)) rows.push_back(&row);
  }
  return rows;
}

const Estimate* found(const std::vector<Estimate>& estimates, const Parameter& what) {
  for (const Estimate& estimate : estimates)
    if (estimate.what == what) return &estimate;
  return nullptr;
}

// What a report gives for a row of both figures; only named where it has none.
Estimate estimate_like(const BothFigures& wanted, const Parameter& what, const EstimateReport& report) {
  if (wanted.model.empty()) {
    const Estimate* one = found(report.answer, what);
    return one ? *one : estimate_of(what);
  }
  for (const ModelRow& row : report.table)
    if (row.name == wanted.model && row.card_entry == wanted.card_entry)
      if (const Estimate* one = found(row.estimates, what)) return *one;
  return estimate_of(what);
}

double seen_of(const CaptureHistories& histories) {
  return static_cast<double>(histories.animal_count());
}

// Limits over the draws: each draw's interval as it is, all of one weight. Without any doubt they are the
// certain figure's own. Nothing where a draw has none.
std::optional<Interval> limits_over(const std::vector<Estimate>& draws, double level) {
  std::vector<WeighedLimits> limits;
  double floor = kInfinity;
  for (const Estimate& draw : draws) {
    if (!std::isfinite(draw.value) || !draw.undefined.empty() || draw.intervals.empty()) return std::nullopt;
    const Interval& its = draw.intervals.front();
    if (its.method.code() == messages::kIntervalNoInformation.code) return std::nullopt;
    limits.push_back({1 / static_cast<double>(draws.size()), draw.value, its.lower, its.upper});
    const auto counted = draw.details.find("counted");
    floor = std::min({floor, its.lower, counted == draw.details.end() ? 0 : counted->second});
  }
  if (limits.empty()) return std::nullopt;
  const Quantity of = draws.front().what.quantity;
  if (is_count(of)) return averaged_limits(limits, Range::above, floor, level);
  if (of == Quantity::spread_between_years) return std::nullopt;
  if (of == Quantity::growth_rate || of == Quantity::mean_growth || of == Quantity::recruitment ||
      of == Quantity::yearly_trend || of == Quantity::density)
    return averaged_limits(limits, Range::positive, 0, level);
  if (of == Quantity::other || of == Quantity::entry) return std::nullopt;
  return averaged_limits(limits, Range::from_0_to_1, 0, level);
}

Estimate in_doubt(const std::vector<Estimate>& draws, double level) {
  Estimate combined = combine_draws(draws, level);
  if (const auto limits = limits_over(draws, level)) {
    combined.intervals.insert(combined.intervals.begin(), *limits);
    combined.intervals.front().method = messages::kIntervalOverDraws;
    combined.intervals.front().lower = std::min(limits->lower, combined.value);
    combined.intervals.front().upper = std::max(limits->upper, combined.value);
  }
  return combined;
}

// One sentence on what sets the two figures apart.
Message why_they_differ(const EstimateReport& certain, double seen_certain, double seen_drawn) {
  if (!certain.stopped_before.empty())
    return {messages::kFirstStopsBefore, {{"occasion", certain.stopped_before}}};
  if (seen_drawn > 1.01 * seen_certain) return messages::kDrawsHoldMore;
  if (seen_drawn < 0.99 * seen_certain) return messages::kDrawsHoldFewer;
  return messages::kDrawsHoldAsMany;
}

// The certain figures, by the design that the drawn histories call for where it can be fitted to them, else
// by the one that suits them; with no figure at all, a report that says why.
EstimateReport certain_report(const DoubtfulHistories& histories, const EstimateRequest& request,
                              const std::string& design, const std::vector<Estimate>& wanted) {
  Message refused = messages::kNothingSettledYet;
  EstimateRequest same = request;
  same.design = design;
  for (const EstimateRequest& one : {same, request}) {
    if (!histories.certain) break;
    try {
      return estimate(*histories.certain, one);
    } catch (const InputError& error) {
      refused = error.message();
    }
  }
  EstimateReport report;
  report.design = design;
  report.level = request.level;
  report.warnings = {Message(messages::kNoCertainFigure, {{"why", refused}})};
  for (const Estimate& estimate : wanted) {
    report.answer.push_back(estimate_of(estimate.what));
    report.answer.back().undefined = refused;
    report.answer.back().intervals = {{0, kInfinity, request.level, messages::kIntervalNoInformation}};
  }
  return report;
}

// The rows of both figures, with the certain ones; and a request for the draws that fits these rows alone.
void choose_rows(EstimateInDoubt& both, const EstimateReport& full, EstimateRequest& for_draws) {
  const std::vector<const ModelRow*> drawn_rows = rows_to_draw(full);
  if (!drawn_rows.empty()) {
    for_draws.models.clear();
    for_draws.card["design"] = full.design;
    for_draws.card["models"] = nlohmann::json::array();
    for (const ModelRow* row : drawn_rows) for_draws.card["models"].push_back(row->card_entry);
  }
  for (const Estimate& estimate : full.answer) both.rows.push_back({{}, {}, estimate_of(estimate.what), {}});
  for (const ModelRow* row : drawn_rows)
    if (!row->estimates.empty())
      both.rows.push_back(
          {row->name, row->description, estimate_of(row->estimates.front().what), {}, row->card_entry});
  for (BothFigures& row : both.rows) {
    row.certain = estimate_like(row, row.certain.what, both.report);
    if (row.certain.intervals.empty() && row.certain.undefined.empty())
      row.certain.undefined = messages::kOccasionNotSettled;
  }
}

// Fits every draw and combines them, row by row. The mean number of animals seen in them.
double estimate_the_draws(EstimateInDoubt& both, const DoubtfulHistories& histories,
                          const CaptureHistories& first, const EstimateRequest& request) {
  std::vector<std::vector<Estimate>> drawn_of(both.rows.size());
  double seen = 0;
  for (int draw = 0; draw < both.draws; ++draw) {
    EstimateReport report;
    try {
      const CaptureHistories one = draw == 0 ? first : histories.drawn(draw);
      seen += seen_of(one) / both.draws;
      report = estimate(one, request);
    } catch (const InputError&) {  // this draw has no estimate, and is counted so
    }
    for (std::size_t k = 0; k < both.rows.size(); ++k)
      drawn_of[k].push_back(estimate_like(both.rows[k], both.rows[k].certain.what, report));
  }
  for (std::size_t k = 0; k < both.rows.size(); ++k)
    both.rows[k].in_doubt = in_doubt(drawn_of[k], both.report.level);
  return seen;
}

std::string answer_to_quote(const EstimateInDoubt& both, const EstimateReport& full) {
  EstimateReport to_quote;
  to_quote.design = full.design;
  to_quote.time = full.time;
  to_quote.moments = full.moments;
  for (const BothFigures& row : both.rows)
    if (row.model.empty()) to_quote.answer.push_back(row.in_doubt);
  return plain_answer(to_quote);
}

}  // namespace

EstimateInDoubt estimate_in_doubt(const DoubtfulHistories& histories, const EstimateRequest& request) {
  EstimateInDoubt both;
  if (!histories.drawn) {
    if (histories.certain) both.report = estimate(*histories.certain, request);
    both.why = {messages::kNothingInDoubt};
    return both;
  }
  const CaptureHistories first = histories.drawn(0);
  if (cells_of(first) > kTooManyCells) {
    if (histories.certain) both.report = estimate(*histories.certain, request);
    both.why = {messages::kTooManyHistories};
    return both;
  }
  EstimateRequest quiet = request;
  quiet.plots = false;
  // Every draw is fitted by the same models, those that suit the first.
  const EstimateReport full = estimate(first, quiet);
  if (quiet.card.is_null()) quiet.card = nlohmann::json::object();
  both.moments = full.moments;
  both.report = certain_report(histories, request, full.design, full.answer);
  const bool design_was_asked = request.design != "auto" || !request.models.empty() ||
                                (!request.card.is_null() && !request.card.empty());
  if (!design_was_asked && both.report.design == full.design) both.report.why = full.why;
  choose_rows(both, full, quiet);
  both.draws = cells_of(first) > kManyCells ? kFewDraws : kDraws;
  const double seen = estimate_the_draws(both, histories, first, quiet);
  both.why = {Message(messages::kDrawnTimes, {{"draws", std::to_string(both.draws)},
                                              {"n", static_cast<std::size_t>(histories.captures_in_doubt)}})};
  if (!full.stopped_before.empty())
    both.why.push_back({messages::kDrawsStopBefore, {{"occasion", full.stopped_before}}});
  both.differ = why_they_differ(both.report, histories.certain ? seen_of(*histories.certain) : 0, seen);
  both.plain = answer_to_quote(both, full);
  return both;
}

}  // namespace evet::models
