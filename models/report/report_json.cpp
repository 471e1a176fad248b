// The JSON shape of a report; no other file knows it.
#include "models/report/report_json.h"

#include <cmath>

#include "models/report/plain_answer.h"

namespace evet::models {
namespace {

using nlohmann::json;

json json_number(double value) {
  if (std::isnan(value)) return nullptr;
  if (std::isinf(value)) return value > 0 ? "inf" : "-inf";
  return value;
}

json to_json(const Interval& interval) {
  return {{"lower", json_number(interval.lower)},
          {"upper", json_number(interval.upper)},
          {"level", interval.level},
          {"method", interval.method.words()}};
}

const char* kind_of(const Parameter& what) {
  switch (what.kind) {
    case Parameter::Kind::value:
      return "value";
    case Parameter::Kind::slope:
      return "slope";
    case Parameter::Kind::shift:
      return "shift";
    case Parameter::Kind::product:
      return "product";
    case Parameter::Kind::inner:
      break;
  }
  return "inner";
}

json to_json(const Parameter& what) {
  json groups = json::object();
  for (const auto& [group, level] : what.groups) groups[group] = level;
  return {{"quantity", code_of(what.quantity)},
          {"kind", kind_of(what)},
          {"index", what.index ? json(*what.index) : json(nullptr)},
          {"groups", groups},
          {"about", what.about_name()}};
}

json to_json(const std::vector<Estimate>& estimates) {
  json list = json::array();
  for (const Estimate& estimate : estimates) list.push_back(to_json(estimate));
  return list;
}

std::vector<std::string> names_of(const std::vector<Parameter>& parameters) {
  std::vector<std::string> names;
  for (const Parameter& one : parameters) names.push_back(one.name());
  return names;
}

json to_json(const ModelRow& row) {
  json out = {{"model", row.name},
              {"description", row.description},
              {"estimates", to_json(row.estimates)},
              {"warnings", each_in_words(row.warnings)}};
  out["card"] = row.card_entry;
  if (row.has_likelihood)
    out.update({{"family", row.family},
                {"parameters", row.parameters},
                {"sample_size", row.sample_size},
                {"log_likelihood", json_number(row.log_likelihood)},
                {"aicc", json_number(row.aicc)},
                {"delta", json_number(row.delta)},
                {"weight", json_number(row.weight)},
                {"not_averaged", row.not_averaged.words()},
                {"not_estimable", names_of(row.not_estimable)},
                {"at_boundary", names_of(row.at_boundary)}});
  return out;
}

}  // namespace

json to_json(const Estimate& estimate) {
  json intervals = json::array();
  for (const Interval& interval : estimate.intervals) intervals.push_back(to_json(interval));
  json details = json::object();
  for (const auto& [name, value] : estimate.details) details[name] = json_number(value);
  return {{"parameter", estimate.parameter},
          {"of", to_json(estimate.what)},
          {"at", estimate.at},
          {"value", json_number(estimate.value)},
          {"standard_error", json_number(estimate.standard_error)},
          {"intervals", intervals},
          {"assumptions", each_in_words(estimate.assumptions)},
          {"warnings", each_in_words(estimate.warnings)},
          {"source", estimate.source},
          {"undefined", estimate.undefined.words()},
          {"details", details}};
}

json to_json(const EstimateReport& report) {
  json table = json::array();
  for (const ModelRow& row : report.table) table.push_back(to_json(row));
  json tests = json::array();
  for (const AssumptionTest& test : report.tests)
    tests.push_back({{"test", test.name},
                     {"statistic", json_number(test.statistic)},
                     {"degrees_of_freedom", test.degrees_of_freedom},
                     {"p_value", json_number(test.p_value)},
                     {"code", test.code},
                     {"says", words(test.says)}});
  json plots = json::array();
  for (const Plot& plot : report.plots) plots.push_back({{"title", plot.title}, {"svg", plot.svg}});
  json moments = json::array();
  for (const Moment& moment : report.moments) moments.push_back(moment.words());
  json nested = json::array();
  for (const NestedTest& test : report.nested)
    nested.push_back({{"smaller", test.smaller},
                      {"larger", test.larger},
                      {"chi_square", json_number(test.chi_square)},
                      {"degrees_of_freedom", test.degrees_of_freedom},
                      {"p_value", json_number(test.p_value)},
                      {"says", words(test.says)}});
  const Overdispersion& scatter = report.overdispersion;
  return {{"design", report.design},
          {"why", words(report.why)},
          {"level", report.level},
          {"animals", report.animals},
          {"occasions", report.occasions},
          {"captures", report.captures},
          {"plain", plain_answer(report)},
          {"moments", moments},
          {"survival_per", report.time.unit},
          {"interval_lengths", report.time.lengths},
          {"criterion", report.criterion},
          {"overdispersion",
           {{"used", json_number(scatter.used)},
            {"pooled", json_number(scatter.pooled)},
            {"bootstrap", json_number(scatter.bootstrap)},
            {"says", words(scatter.says)}}},
          {"models", table},
          {"answer", to_json(report.answer)},
          {"tests", tests},
          {"nested", nested},
          {"assumptions", each_in_words(report.assumptions)},
          {"warnings", each_in_words(report.warnings)},
          {"stopped_before", report.stopped_before.empty() ? json(nullptr) : json(report.stopped_before)},
          {"plots", plots}};
}

}  // namespace evet::models
