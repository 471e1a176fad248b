#include "models/report/tidy_csv.h"

#include <charconv>
#include <cmath>

#include "matcher/base/csv.h"
#include "models/base/parameter_words.h"

namespace evet::models {
namespace {

std::string table_number(double value) {
  if (std::isnan(value)) return {};
  if (std::isinf(value)) return value > 0 ? "Inf" : "-Inf";
  char text[32];
  return {text, std::to_chars(text, text + sizeof text, value).ptr};
}

std::string row(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) line += (i ? "," : "") + csv_field(cells[i]);
  return line + "\r\n";
}

std::string levels(const Parameter& what) {
  std::string text;
  for (const auto& [group, level] : what.groups) text += (text.empty() ? "" : " ") + group + "=" + level;
  return text;
}

std::string covariates(const Estimate& estimate) {
  std::string text;
  for (const auto& [name, value] : estimate.at)
    text += (text.empty() ? "" : " ") + name + "=" + table_number(value);
  return text;
}

const char* kind_word(const Parameter& what) {
  return what.kind == Parameter::Kind::slope   ? "slope"
         : what.kind == Parameter::Kind::shift ? "shift"
         : what.kind == Parameter::Kind::value ? "value"
                                               : "inner";
}

std::string estimate_row(const std::string& model, const std::string& description, const Estimate& estimate,
                         const std::vector<Moment>& moments) {
  const Interval interval = estimate.intervals.empty() ? Interval{} : estimate.intervals.front();
  const bool known = !estimate.intervals.empty();
  return row({model, description, estimate.parameter,
              estimate.what.quantity == Quantity::other ? "" : code_of(estimate.what.quantity),
              kind_word(estimate.what), estimate.what.index ? std::to_string(*estimate.what.index) : "",
              time_words(estimate.what, moments), levels(estimate.what), covariates(estimate),
              table_number(estimate.value), table_number(estimate.standard_error),
              known ? table_number(interval.lower) : "", known ? table_number(interval.upper) : "",
              known ? table_number(interval.level) : "", interval.method.words(),
              estimate.undefined.words()});
}

}  // namespace

std::string estimates_csv(const EstimateReport& report) {
  std::string out =
      row({"model", "description", "parameter", "quantity", "kind", "number", "time", "group", "at",
           "estimate", "standard_error", "lower", "upper", "level", "interval", "not_told"});
  for (const Estimate& estimate : report.answer) out += estimate_row("answer", "", estimate, report.moments);
  for (const ModelRow& one : report.table)
    for (const Estimate& estimate : one.estimates)
      out += estimate_row(one.name, one.description, estimate, report.moments);
  return out;
}

std::string models_csv(const EstimateReport& report) {
  std::string out =
      row({"family", "model", "description", "parameters", "minus_two_log_likelihood",
           report.criterion == "AICc" ? "aicc" : "qaicc", "difference", "weight", "not_averaged"});
  for (const ModelRow& one : report.table)
    if (one.has_likelihood)
      out += row({one.family, one.name, one.description, std::to_string(one.parameters),
                  table_number(-2 * one.log_likelihood), table_number(one.aicc), table_number(one.delta),
                  table_number(one.weight), one.not_averaged.words()});
  return out;
}

std::string tests_csv(const EstimateReport& report) {
  std::string out = row({"test", "statistic", "degrees_of_freedom", "p_value", "says"});
  for (const AssumptionTest& test : report.tests)
    out += row({test.name, table_number(test.statistic), table_number(test.degrees_of_freedom),
                table_number(test.p_value), words(test.says)});
  return out;
}

}  // namespace evet::models
