#include "models/report/plots.h"

#include <algorithm>
#include <cmath>

#include "models/ask/answer.h"
#include "models/base/messages.h"
#include "models/base/parameter_words.h"
#include "models/closed/catch_groups.h"
#include "models/open/survival.h"
#include "models/open/time_between.h"
#include "models/report/chart.h"
#include "models/report/messages.h"
#include "models/report/time_chart.h"

namespace evet::models {
namespace {

std::string say(const MessageText& text, std::vector<Message::Argument> more = {}) {
  return Message(text, std::move(more)).words();
}

std::string percent(double level) {
  return std::to_string(std::lround(100 * level)) + " %";
}

// When the moments of a report are, for drawings to scale; nothing where they have no dates.
struct Calendar {
  std::string first;
  std::vector<double> from, to;  // days since the first, of each occasion or period
  bool known() const { return !first.empty(); }
};

Calendar calendar_of(const CaptureHistories& histories, bool by_period) {
  Calendar days;
  if (histories.dates.empty()) return days;
  days.first = histories.dates.front();
  for (std::size_t j = 0; j < histories.dates.size(); ++j) {
    const double day = days_between(days.first, histories.dates[j]);
    const bool same =
        by_period && j > 0 && !histories.primary.empty() && histories.primary[j] == histories.primary[j - 1];
    if (!same) days.from.push_back(day), days.to.push_back(day);
    days.to.back() = day;
  }
  return days;
}

// At the middle of its period, or from one to the next.
TimePoint time_point_of(const Calendar& days, const Estimate& estimate, bool of_interval) {
  const Interval interval = estimate.intervals.empty() ? Interval{} : estimate.intervals.front();
  const auto at = static_cast<std::size_t>(estimate.what.index.value_or(1)) - 1;
  const double here = (days.from[at] + days.to[at]) / 2;
  if (!of_interval || at + 1 >= days.from.size())
    return {here, here, estimate.value, interval.lower, interval.upper};
  const double next = (days.from[at + 1] + days.to[at + 1]) / 2;
  return {here, next, estimate.value, interval.lower, interval.upper};
}

IntervalPoint point_of(const std::string& label, const Estimate& estimate) {
  const Interval interval = estimate.intervals.empty() ? Interval{} : estimate.intervals.front();
  return {label, estimate.value, interval.lower, interval.upper};
}

bool any_value(const std::vector<IntervalPoint>& points) {
  return std::any_of(points.begin(), points.end(),
                     [](const IntervalPoint& p) { return std::isfinite(p.value); });
}

void add(std::vector<Plot>& plots, const std::string& title, std::string svg) {
  if (!svg.empty()) plots.push_back({title, std::move(svg)});
}

using Levels = std::vector<std::pair<std::string, std::string>>;

bool is_value_of(const Estimate& estimate, Quantity quantity) {
  return estimate.what.quantity == quantity && estimate.what.kind == Parameter::Kind::value;
}

// Groups for which the quantity has estimates of its own, all animals first.
std::vector<Levels> groups_of(const std::vector<Estimate>& estimates, Quantity quantity) {
  std::vector<Levels> groups = {{}};
  for (const Estimate& estimate : estimates)
    if (is_value_of(estimate, quantity) &&
        std::find(groups.begin(), groups.end(), estimate.what.groups) == groups.end())
      groups.push_back(estimate.what.groups);
  return groups;
}

std::string words_of(const Levels& levels) {
  std::string text;
  for (const auto& [group, level] : levels) text += (text.empty() ? "" : " ") + level;
  return text;
}

std::string name_of(const std::string& title, const Levels& group) {
  return group.empty() ? title : say(messages::kPlotOfLevel, {{"title", title}, {"levels", words_of(group)}});
}

bool any_value(const std::vector<TimePoint>& points) {
  return std::any_of(points.begin(), points.end(), [](const TimePoint& p) { return std::isfinite(p.value); });
}

// Occasions at their dates; all groups of a quantity on one scale.
void add_over_time(std::vector<Plot>& plots, const std::vector<Estimate>& estimates, Quantity quantity,
                   const std::string& title, const std::string& about, const std::string& up,
                   const Calendar& days) {
  const bool of_interval = quantity == Quantity::survival || quantity == Quantity::growth_rate;
  std::vector<std::pair<std::string, std::vector<TimePoint>>> drawings;
  double most = 0;
  for (const Levels& group : groups_of(estimates, quantity)) {
    std::vector<TimePoint> points;
    for (const Estimate& estimate : estimates) {
      const int index = estimate.what.index.value_or(0);
      if (is_value_of(estimate, quantity) && estimate.what.groups == group && index >= 1 &&
          index <= static_cast<int>(days.from.size()))
        points.push_back(time_point_of(days, estimate, of_interval));
    }
    if (points.size() < 2 || !any_value(points)) continue;
    if (!group.empty())
      most = std::max(most, most_of(points));  // all animals together stand higher than any part
    drawings.emplace_back(name_of(title, group), points);
  }
  const bool counts = is_count(quantity);
  for (const auto& [name, points] : drawings)
    add(plots, name,
        time_chart({name, about, "", up}, days.first, points, counts && name == title ? 0 : most));
}

// A series "survival 1", "survival 2", ... of the estimates: at its dates where they are known, else each with the
// label of its occasion; one drawing a group, and one over the groups where the quantity is the same throughout.
void add_series(std::vector<Plot>& plots, const std::vector<Estimate>& estimates, Quantity quantity,
                const std::string& title, const std::string& up, const std::vector<std::string>& labels,
                double level, const Calendar& days = {}) {
  const std::string about = say(messages::kPlotAbout, {{"level", percent(level)}});
  if (days.known()) add_over_time(plots, estimates, quantity, title, about, up, days);
  std::vector<IntervalPoint> by_group;
  for (const Levels& group : groups_of(estimates, quantity)) {
    std::vector<IntervalPoint> points;
    for (const Estimate& estimate : estimates) {
      if (!is_value_of(estimate, quantity) || estimate.what.groups != group) continue;
      const int index = estimate.what.index.value_or(0);
      if (index >= 1 && index <= static_cast<int>(labels.size()))
        points.push_back(point_of(labels[static_cast<std::size_t>(index) - 1], estimate));
      if (!group.empty() && !estimate.what.index) by_group.push_back(point_of(words_of(group), estimate));
    }
    const std::string name = name_of(title, group);
    if (!days.known() && points.size() >= 2 && any_value(points))
      add(plots, name, interval_chart({name, about, say(messages::kAxisOccasion), up}, points));
  }
  if (by_group.size() >= 2 && any_value(by_group)) {
    const std::string name = say(messages::kPlotByGroup, {{"title", title}});
    add(plots, name, interval_chart({name, about, "", up}, by_group));
  }
}

// From each place to each other, in one drawing: what is compared is the ways.
void add_moving(std::vector<Plot>& plots, const std::vector<Estimate>& estimates, double level) {
  std::vector<IntervalPoint> points;
  for (const Estimate& estimate : estimates) {
    if (!is_value_of(estimate, Quantity::moving)) continue;
    const Levels& ends = estimate.what.groups;
    const std::string way =
        ends.size() == 2 ? say(messages::kFromTo, {{"first", ends[0].second}, {"last", ends[1].second}})
        : ends.empty()   ? say(messages::kAnyOtherPlace)
                         : ends.front().second;
    points.push_back(point_of(way, estimate));
  }
  if (!any_value(points)) return;
  const std::string title = say(messages::kPlotMoving);
  add(plots, title,
      interval_chart({title, say(messages::kPlotMovingAbout, {{"level", percent(level)}}),
                      say(messages::kAxisFromAndTo), say(messages::kAxisChanceOfMoving)},
                     points));
}

void add_by_model(std::vector<Plot>& plots, const EstimateReport& report) {
  std::vector<IntervalPoint> points;
  for (const ModelRow& row : report.table)
    if (row.estimates.front().what == Parameter{Quantity::number})
      points.push_back(point_of(row.name, row.estimates.front()));
  if (points.size() < 2 || !any_value(points)) return;
  if (report.answer.front().what == Parameter{Quantity::number} && report.table.size() > 2)
    points.push_back(point_of(say(messages::kPlotAnswer), report.answer.front()));
  const std::string title = say(messages::kPlotByModel);
  add(plots, title,
      interval_chart({title, say(messages::kPlotAboutModels, {{"level", percent(report.level)}}), "",
                      say(messages::kAxisAnimals)},
                     points));
}

void add_profile(std::vector<Plot>& plots, const FittedRow& best, double level) {
  const FittedModel& model = *best.model;
  const Link link = model.likelihood.links.front();
  const auto found =
      std::find_if(best.row.estimates.begin(), best.row.estimates.end(),
                   [&](const Estimate& one) { return one.what == model.likelihood.parameters.front(); });
  if (found == best.row.estimates.end()) return;
  const Estimate& estimate = *found;
  if (!model.fit.converged || model.fit.at_boundary.size() > 2 || model.fit.theta.size() > 40 ||
      model.fit.boundary.front() || !(model.fit.covariance(0, 0) > 0))
    return;
  const bool number = estimate.details.contains("counted") && link == Link::log;
  const double counted = number ? estimate.details.at("counted") : 0;
  const double sd = std::sqrt(model.fit.covariance(0, 0)), hat = model.fit.theta[0];
  const double z = normal_point(level);
  std::vector<double> at;
  constexpr int kPoints = 30;
  for (int i = -kPoints; i <= kPoints; ++i) {
    const double x = hat + i * 1.5 * z * sd / kPoints;
    if (x > model.likelihood.lower[0] && x < model.likelihood.upper[0]) at.push_back(x);
  }
  // From the summit outwards, so that each fit starts near the one before.
  const auto middle = std::lower_bound(at.begin(), at.end(), hat);
  std::vector<double> up(middle, at.end()), down(at.begin(), middle);
  std::reverse(down.begin(), down.end());
  std::vector<double> drops_down = profile_drop(model.likelihood, model.fit, 0, down);
  const std::vector<double> drops_up = profile_drop(model.likelihood, model.fit, 0, up);
  std::reverse(drops_down.begin(), drops_down.end());
  std::vector<double> y = drops_down, x;
  y.insert(y.end(), drops_up.begin(), drops_up.end());
  for (double& drop : y) drop /= model.fit.overdispersion;
  for (const double coordinate : at) x.push_back(counted + natural(link, coordinate));
  const std::string name = parameter_words(estimate.what);
  const std::string title = say(messages::kPlotProfile, {{"parameter", name}});
  add(plots, title,
      profile_chart(
          {title, say(messages::kPlotProfileAbout, {{"parameter", name}, {"model", best.row.description}}),
           name, say(messages::kAxisTwiceTheFall)},
          x, y, z * z, say(messages::kPlotLimit, {{"level", percent(level)}}), natural(link, hat) + counted));
}

double pearson_residual(double seen, double expected) {
  return expected > 1e-9 ? (seen - expected) / std::sqrt(expected) : seen > 0 ? kInfinity : 0;
}

void add_residuals(std::vector<Plot>& plots, const MessageText& title, const MessageText& what,
                   const ModelRow& row, const MessageText& axis, const std::vector<Residual>& residuals) {
  const std::string about =
      say(messages::kResidualsAbout, {{"what", Message(what)}, {"model", row.description}});
  add(plots, say(title),
      residual_chart({say(title), about, say(axis), say(messages::kAxisResidual)}, residuals));
}

void add_closed_residuals(std::vector<Plot>& plots, const FittedRow& best, SurveyData& data) {
  const ClosedCounts& counts = data.closed();
  if (counts.lost_before.back() > 0 || !std::isfinite(best.row.estimates.front().value)) return;
  const CatchExpectation expected =
      expected_catches(catch_groups(*best.model, counts.occasions), best.row.estimates.front().value);
  if (expected.caught.empty()) return;
  std::vector<Residual> by_occasion, by_captures;
  for (std::size_t j = 0; j < expected.caught.size(); ++j) {
    by_occasion.push_back(
        {data.histories().occasions[j], pearson_residual(counts.caught[j], expected.caught[j])});
    by_captures.push_back(
        {std::to_string(j + 1), pearson_residual(counts.frequencies[j], expected.frequencies[j])});
  }
  add_residuals(plots, messages::kResidualsByOccasion, messages::kCaughtLessExpected, best.row,
                messages::kAxisOccasion, by_occasion);
  add_residuals(plots, messages::kResidualsByTimes, messages::kTimesLessExpected, best.row,
                messages::kAxisTimesCaught, by_captures);
}

bool plain(const ModelChoice& choice) {
  for (const auto& [name, part] : choice.parts)
    if (!part.linear_in.empty() || part.each_combination || part.after_capture ||
        part.varies_by.size() > (part.by("occasion") ? 1 : 0))
      return false;
  return true;
}

// The best model of survival whose parameters are of occasions alone.
const FittedRow* best_plain(const std::vector<FittedRow>& rows) {
  const FittedRow* best = nullptr;
  for (const FittedRow& fitted : rows)
    if (fitted.row.family == "survival" && plain(fitted.choice) && fitted.row.weight > 0 &&
        (!best || fitted.row.weight > best->row.weight))
      best = &fitted;
  return best;
}

// Chance of being caught next on an occasion after each release.
Eigen::MatrixXd expected_cells(const FittedRow& row, Eigen::Index occasions,
                               const std::vector<double>& lengths) {
  const auto value = [&](Quantity what, Eigen::Index number) {
    const Estimate* estimate = find_estimate(row.row, {what, static_cast<int>(number)});
    return estimate ? estimate->value : kUndefined;
  };
  std::vector<double> survival, recapture;
  for (Eigen::Index i = 1; i < occasions; ++i) {
    survival.push_back(
        std::pow(value(Quantity::survival, i), length_of(lengths, static_cast<std::size_t>(i) - 1)));
    recapture.push_back(value(Quantity::recapture, i + 1));
  }
  return release_cells(survival, recapture);
}

// Cell by cell where they are few, else by occasion.
void add_open_residuals(std::vector<Plot>& plots, const std::vector<FittedRow>& rows, SurveyData& data,
                        const std::vector<double>& lengths) {
  constexpr std::size_t kMostCells = 36;
  const FittedRow* best = best_plain(rows);
  if (!best) return;
  const MArray& releases = data.releases();
  const Eigen::Index k = releases.occasions();
  const Eigen::MatrixXd chances = expected_cells(*best, k, lengths);
  if (!chances.allFinite()) return;
  std::vector<Residual> cells, by_occasion;
  for (Eigen::Index j = 1; j < k; ++j) {
    double seen = 0, expected = 0;
    for (Eigen::Index i = 0; i < j; ++i) {
      expected += releases.released[i] * chances(i, j);
      seen += releases.next(i, j);
    }
    by_occasion.push_back(
        {data.histories().occasions[static_cast<std::size_t>(j)], pearson_residual(seen, expected)});
  }
  for (Eigen::Index i = 0; i + 1 < k; ++i)
    for (Eigen::Index j = i + 1; j < k; ++j)
      if (const double here = releases.released[i] * chances(i, j); here >= 0.5)
        cells.push_back({std::to_string(i + 1) + "-" + std::to_string(j + 1),
                         pearson_residual(releases.next(i, j), here)});
  if (cells.size() <= kMostCells)
    add_residuals(plots, messages::kResidualsOfRecaptures, messages::kCellsLessExpected, best->row,
                  messages::kAxisLetGoNextCaught, cells);
  else
    add_residuals(plots, messages::kResidualsOfRecaptures, messages::kMarkedLessExpected, best->row,
                  messages::kAxisOccasion, by_occasion);
}

std::vector<std::string> numbered(int count) {
  std::vector<std::string> labels;
  for (int i = 1; i <= count; ++i) labels.push_back(std::to_string(i));
  return labels;
}

}  // namespace

std::vector<Plot> make_plots(const EstimateReport& report, const std::vector<FittedRow>& rows,
                             SurveyData& data) {
  std::vector<Plot> plots;
  const std::vector<std::string>& occasions = data.histories().occasions;
  const FittedRow* best = best_row(rows);
  if (report.design == "closed") {
    add_by_model(plots, report);
    const FittedRow* by_occasion = nullptr;
    for (const FittedRow& fitted : rows)
      if (fitted.row.name == "occasion") by_occasion = &fitted;
    if (by_occasion)
      add_series(plots, by_occasion->row.estimates, Quantity::capture, say(messages::kPlotCapture),
                 say(messages::kAxisChanceOfCapture), occasions, report.level,
                 calendar_of(data.histories(), false));
    if (best) add_closed_residuals(plots, *best, data);
  } else {
    const std::vector<std::string> labels =
        report.design == "robust" ? numbered(data.histories().primary_count()) : occasions;
    const Calendar days = calendar_of(data.histories(), report.design == "robust");
    const auto per = [&](Quantity what) {
      if (report.time.unit == "interval") return words_of(what).words();
      return say(messages::kAxisPer, {{"quantity", words_of(what)}, {"unit", report.time.unit}});
    };
    add_series(plots, report.answer, Quantity::number, say(messages::kPlotNumber),
               say(messages::kAxisAnimals), labels, report.level, days);
    add_series(plots, report.answer, Quantity::survival, say(messages::kPlotSurvival),
               per(Quantity::survival), labels, report.level, days);
    add_series(plots, report.answer, Quantity::recapture, say(messages::kPlotRecapture),
               say(messages::kAxisChanceOfRecapture), labels, report.level, days);
    add_series(plots, report.answer, Quantity::growth_rate, say(messages::kPlotGrowth),
               per(Quantity::growth_rate), labels, report.level, days);
    add_moving(plots, report.answer, report.level);
    if (report.design == "open") add_open_residuals(plots, rows, data, report.time.lengths);
    if (const FittedRow* number = best_row(rows, "super-population")) best = number;
  }
  if (best) add_profile(plots, *best, report.level);
  return plots;
}

}  // namespace evet::models
