#include "models/report/report_text.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "models/ask/registry.h"
#include "models/base/figure_text.h"
#include "models/base/told_name.h"
#include "models/report/plain_answer.h"
#include "models/report/text_layout.h"

namespace evet::models {
namespace {

std::string interval_text(const Estimate& estimate) {
  if (estimate.intervals.empty()) return "no interval";
  const Interval& interval = estimate.intervals.front();
  return figure_text(interval.lower) + " to " + figure_text(interval.upper);
}

std::string value_text(const Estimate& estimate) {
  return std::isinf(estimate.value) ? "infinite" : figure_text(estimate.value);
}

void add_list(std::string& out, const std::string& title, const Sentences& list, std::size_t width) {
  if (list.empty()) return;
  out += "\n" + title + "\n";
  for (const Message& sentence : list) out += wrapped(sentence.words(), width, "  - ", "    ");
}

void add_families(std::string& out, const EstimateReport& report) {
  std::vector<std::string> families;
  for (const ModelRow& row : report.table)
    if (row.has_likelihood && std::find(families.begin(), families.end(), row.family) == families.end())
      families.push_back(row.family);
  for (const std::string& family : families) {
    std::vector<const ModelRow*> members;
    for (const ModelRow& row : report.table)
      if (row.has_likelihood && row.family == family) members.push_back(&row);
    std::stable_sort(members.begin(), members.end(),
                     [](const ModelRow* a, const ModelRow* b) { return a->aicc < b->aicc; });
    std::vector<std::vector<std::string>> rows = {
        {"model", "parameters", "-2 ln L", report.criterion, "difference", "weight",
         members.front()->estimates.front().parameter, "SE",
         std::to_string(std::lround(100 * report.level)) + " % interval"}};
    std::vector<std::string> left_out;
    const auto fixed = [](double value, int digits) {
      return std::isfinite(value) ? with_decimals(value, digits) : std::string("-");
    };
    for (const ModelRow* row : members) {
      const Estimate& first = row->estimates.front();
      const ModelEntry* entry = find_model(row->name);
      rows.push_back({entry && !entry->parts.empty() ? row->description : row->name,
                      std::to_string(row->parameters), fixed(-2 * row->log_likelihood, 2),
                      fixed(row->aicc, 2), fixed(row->delta, 2),
                      row->not_averaged.empty() ? fixed(row->weight, 3) : "-", value_text(first),
                      figure_text(first.standard_error), interval_text(first)});
      if (!row->not_averaged.empty())
        left_out.push_back(rows.back()[0] + ": not averaged, for " + row->not_averaged.words() + ".");
    }
    out += "\nModels (" + family + ")\n" + columns(rows, 1);
    for (const std::string& line : left_out) out += wrapped(line, 100, "  ", "    ");
  }
}

// What is the same on every occasion is said once.
bool same_figures(const Estimate& one, const Estimate& other) {
  return !is_count(one.what.quantity) && one.what.quantity == other.what.quantity &&
         one.what.kind == other.what.kind && one.what.groups == other.what.groups && one.what.index &&
         other.what.index && std::abs(one.value - other.value) < 1e-9 && one.undefined == other.undefined &&
         !one.intervals.empty() && !other.intervals.empty() &&
         std::abs(one.intervals.front().upper - other.intervals.front().upper) < 1e-6;
}

void add_answer(std::string& out, const EstimateReport& report, const std::string& interval,
                std::size_t width) {
  std::vector<std::vector<std::string>> rows = {{"quantity", "estimate", "SE", interval, "kind of interval"}};
  std::vector<std::string> undefined;
  for (std::size_t i = 0; i < report.answer.size(); ++i) {
    const Estimate& estimate = report.answer[i];
    std::size_t last = i;
    while (last + 1 < report.answer.size() && same_figures(estimate, report.answer[last + 1])) ++last;
    Parameter what = estimate.what;
    if (last > i) what.index.reset();
    const std::string name =
        last > i ? what.name() + ", the same throughout" : told_name(what, report.moments);
    rows.push_back({name, value_text(estimate), figure_text(estimate.standard_error), interval_text(estimate),
                    estimate.intervals.empty() ? "" : estimate.intervals.front().method});
    if (!estimate.undefined.empty()) undefined.push_back(name + ": " + estimate.undefined.words() + ".");
    i = last;
  }
  out += "\nAnswer\n" + columns(rows, 1);
  for (const std::string& reason : undefined) out += wrapped(reason, width, "  ", "    ");
}

// The estimate of a quantity that is constant in its model, from the best such model that is averaged.
const Estimate* weightiest_constant(const EstimateReport& report, Quantity quantity) {
  const Estimate* found = nullptr;
  double weight = 0;
  for (const ModelRow& row : report.table)
    for (const Estimate& estimate : row.estimates)
      if (estimate.what == Parameter{quantity} && row.weight > weight && std::isfinite(estimate.value) &&
          !estimate.intervals.empty()) {
        found = &estimate;
        weight = row.weight;
      }
  return found;
}

// What survival and growth are per, and what a constant one comes to in a year.
std::string time_text(const EstimateReport& report, std::size_t width) {
  const TimeBetween& time = report.time;
  if (time.unit == "interval") return "";
  std::string text = "Survival and growth are per " + time.unit + ", for the occasions lie from " +
                     figure_text(time.shortest_days) + " to " + figure_text(time.longest_days) +
                     " days apart.";
  const double units = units_a_year(time.unit);
  for (const Quantity quantity : {Quantity::survival, Quantity::growth_rate}) {
    const Estimate* constant = weightiest_constant(report, quantity);
    if (units == 0 || !constant) continue;
    const auto year = [&](double value) { return figure_text(std::pow(value, units)); };
    const Interval& interval = constant->intervals.front();
    text += std::string(" A constant ") + word_of(quantity) + " of " + figure_text(constant->value) +
            " per " + time.unit + ", kept up all year, comes to " + year(constant->value) + " a year (" +
            year(interval.lower) + " to " + year(interval.upper) + ").";
  }
  return wrapped(text, width, "  ", "  ");
}

}  // namespace

std::string to_text(const EstimateReport& report, std::size_t width, const std::string& headline) {
  std::string out;
  char text[120];
  out += wrapped(headline.empty() ? plain_answer(report) : headline, width, "", "");
  const auto counted = [](double count, const std::string& of) {
    return figure_text(count) + " " + of + (count == 1 ? "" : "s");
  };
  out += "\n" + counted(report.animals, "animal") + ", " + counted(report.captures, "capture") + ", " +
         counted(report.occasions, "occasion") + "; " + report.design + " design\n";
  if (!report.why.empty()) out += wrapped(words(report.why), width, "", "");
  const std::string interval = std::to_string(std::lround(100 * report.level)) + " % interval";
  add_answer(out, report, interval, width);
  out += time_text(report, width);
  add_list(out, "Mind", report.warnings, width);
  add_families(out, report);
  std::vector<std::vector<std::string>> others = {{"estimator", "quantity", "estimate", "SE", interval}};
  for (const ModelRow& row : report.table)
    if (!row.has_likelihood)
      for (const Estimate& estimate : row.estimates)
        others.push_back({row.name, told_name(estimate.what, report.moments), value_text(estimate),
                          figure_text(estimate.standard_error), interval_text(estimate)});
  if (others.size() > 1) out += "\nBeside the models\n" + columns(others, 2);
  if (!report.tests.empty()) {
    out += "\nTests of assumptions\n";
    for (const AssumptionTest& test : report.tests) {
      std::snprintf(text, sizeof text,
                    test.degrees_of_freedom > 0 ? "chi-square %.2f, %.0f d.f." : "z = %.2f", test.statistic,
                    test.degrees_of_freedom);
      const bool tested = test.degrees_of_freedom > 0 || test.name == "closure";
      out += wrapped(
          test.name +
              (tested ? std::string(": ") + text + ", p " + p_text(test.p_value) + ". " : std::string(": ")) +
              words(test.says),
          width, "  - ", "    ");
    }
  }
  if (!std::isnan(report.overdispersion.pooled) || !report.overdispersion.says.empty()) {
    std::string line = "Overdispersion: pooled " + figure_text(report.overdispersion.pooled) +
                       ", by bootstrap " + figure_text(report.overdispersion.bootstrap) + ", used " +
                       figure_text(report.overdispersion.used) + ". " + words(report.overdispersion.says);
    out += wrapped(line, width, "  - ", "    ");
  }
  if (!report.nested.empty()) {
    out += "\nSmaller models against larger ones\n";
    for (const NestedTest& test : report.nested) {
      std::snprintf(text, sizeof text, ": chi-square %.2f, %.0f d.f., p ", test.chi_square,
                    test.degrees_of_freedom);
      out += wrapped("\"" + test.smaller + "\" in \"" + test.larger + "\"" + text + p_text(test.p_value) +
                         ". " + words(test.says),
                     width, "  - ", "    ");
    }
  }
  add_list(out, "This holds if", report.assumptions, width);
  return out;
}

}  // namespace evet::models
