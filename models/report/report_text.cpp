#include "models/report/report_text.h"

#include <algorithm>
#include <cmath>

#include "models/ask/registry.h"
#include "models/base/figure_text.h"
#include "models/base/messages.h"
#include "models/base/parameter_words.h"
#include "models/report/messages.h"
#include "models/report/plain_answer.h"
#include "models/report/text_layout.h"

namespace evet::models {
namespace {

std::string interval_text(const Estimate& estimate) {
  if (estimate.intervals.empty()) return Message(messages::kNoInterval).words();
  const Interval& interval = estimate.intervals.front();
  return Message(messages::kIntervalSpan,
                 {{"lower", figure_text(interval.lower)}, {"upper", figure_text(interval.upper)}})
      .words();
}

std::string value_text(const Estimate& estimate) {
  return std::isinf(estimate.value) ? Message(messages::kInfiniteValue).words() : figure_text(estimate.value);
}

std::string interval_heading(double level) {
  return Message(messages::kColumnInterval, {{"level", std::to_string(std::lround(100 * level))}}).words();
}

std::string heading(const MessageText& title, std::vector<Message::Argument> more = {}) {
  return "\n" + Message(title, std::move(more)).words() + "\n";
}

void add_list(std::string& out, const MessageText& title, const Sentences& list, std::size_t width) {
  if (list.empty()) return;
  out += heading(title);
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
        {Message(messages::kColumnModel).words(), Message(messages::kColumnParameters).words(), "-2 ln L",
         report.criterion, Message(messages::kColumnDifference).words(),
         Message(messages::kColumnWeight).words(), parameter_words(members.front()->estimates.front().what),
         "SE", interval_heading(report.level)}};
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
        left_out.push_back(Message(messages::kNotAveragedFor,
                                   {{"model", rows.back()[0]}, {"why", row->not_averaged.words()}})
                               .words());
    }
    out += "\n" + Message(messages::kModelsOf, {{"family", family}}).words() + "\n" + columns(rows, 1);
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
  std::vector<std::vector<std::string>> rows = {{Message(messages::kColumnOfQuantity).words(),
                                                 Message(messages::kColumnEstimate).words(), "SE", interval,
                                                 Message(messages::kColumnKind).words()}};
  std::vector<std::string> undefined;
  for (std::size_t i = 0; i < report.answer.size(); ++i) {
    const Estimate& estimate = report.answer[i];
    std::size_t last = i;
    while (last + 1 < report.answer.size() && same_figures(estimate, report.answer[last + 1])) ++last;
    Parameter what = estimate.what;
    if (last > i) what.index.reset();
    const std::string name =
        last > i ? Message(messages::kTheSameThroughout, {{"quantity", parameter_words(what)}}).words()
                 : dated_words(what, report.moments);
    rows.push_back({name, value_text(estimate), figure_text(estimate.standard_error), interval_text(estimate),
                    estimate.intervals.empty() ? "" : estimate.intervals.front().method.words()});
    if (!estimate.undefined.empty())
      undefined.push_back(
          Message(messages::kWhyNotGiven, {{"quantity", name}, {"why", estimate.undefined.words()}}).words());
    i = last;
  }
  out += heading(messages::kAnswerTitle) + columns(rows, 1);
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
  std::string text = Message(messages::kPerTime, {{"unit", time.unit},
                                                  {"shortest", figure_text(time.shortest_days)},
                                                  {"longest", figure_text(time.longest_days)}})
                         .words();
  const double units = units_a_year(time.unit);
  for (const Quantity quantity : {Quantity::survival, Quantity::growth_rate}) {
    const Estimate* constant = weightiest_constant(report, quantity);
    if (units == 0 || !constant) continue;
    const auto year = [&](double value) { return figure_text(std::pow(value, units)); };
    const Interval& interval = constant->intervals.front();
    text += " " + Message(messages::kComesToAYear, {{"quantity", words_of(quantity)},
                                                    {"value", figure_text(constant->value)},
                                                    {"unit", time.unit},
                                                    {"year", year(constant->value)},
                                                    {"lower", year(interval.lower)},
                                                    {"upper", year(interval.upper)}})
                      .words();
  }
  return wrapped(text, width, "  ", "  ");
}

std::string test_text(double statistic, double degrees_of_freedom) {
  const std::string value = with_decimals(statistic, 2);
  if (!(degrees_of_freedom > 0)) return Message(messages::kNormalStatistic, {{"statistic", value}}).words();
  return Message(messages::kChiSquare,
                 {{"statistic", value}, {"freedom", with_decimals(degrees_of_freedom, 0)}})
      .words();
}

void add_beside_models(std::string& out, const EstimateReport& report, const std::string& interval) {
  std::vector<std::vector<std::string>> others = {
      {Message(messages::kColumnEstimator).words(), Message(messages::kColumnOfQuantity).words(),
       Message(messages::kColumnEstimate).words(), "SE", interval}};
  for (const ModelRow& row : report.table)
    if (!row.has_likelihood)
      for (const Estimate& estimate : row.estimates)
        others.push_back({row.name, dated_words(estimate.what, report.moments), value_text(estimate),
                          figure_text(estimate.standard_error), interval_text(estimate)});
  if (others.size() > 1) out += heading(messages::kBesideModels) + columns(others, 2);
}

void add_tests(std::string& out, const EstimateReport& report, std::size_t width) {
  if (!report.tests.empty()) out += heading(messages::kTestsTitle);
  for (const AssumptionTest& test : report.tests) {
    const bool tested = test.degrees_of_freedom > 0 || test.code == "closure";
    const std::string line =
        tested
            ? Message(messages::kTestResult, {{"test", test.name},
                                              {"result", test_text(test.statistic, test.degrees_of_freedom)},
                                              {"p", p_text(test.p_value)},
                                              {"says", words(test.says)}})
                  .words()
            : Message(messages::kTestWords, {{"test", test.name}, {"says", words(test.says)}}).words();
    out += wrapped(line, width, "  - ", "    ");
  }
  const Overdispersion& scatter = report.overdispersion;
  if (!std::isnan(scatter.pooled) || !scatter.says.empty())
    out += wrapped(Message(messages::kOverdispersionLine, {{"pooled", figure_text(scatter.pooled)},
                                                           {"bootstrap", figure_text(scatter.bootstrap)},
                                                           {"used", figure_text(scatter.used)},
                                                           {"says", words(scatter.says)}})
                       .words(),
                   width, "  - ", "    ");
  if (!report.nested.empty()) out += heading(messages::kNestedTitle);
  for (const NestedTest& test : report.nested)
    out += wrapped(
        Message(messages::kNestedResult, {{"smaller", test.smaller},
                                          {"larger", test.larger},
                                          {"result", test_text(test.chi_square, test.degrees_of_freedom)},
                                          {"p", p_text(test.p_value)},
                                          {"says", words(test.says)}})
            .words(),
        width, "  - ", "    ");
}

std::string counted(const MessageText& text, double count) {
  return Message(text, {{"n", static_cast<std::size_t>(count)}, {"count", figure_text(count)}}).words();
}

}  // namespace

std::string to_text(const EstimateReport& report, std::size_t width, const std::string& headline) {
  std::string out = wrapped(headline.empty() ? plain_answer(report) : headline, width, "", "");
  out += heading(messages::kDataAndDesign,
                 {{"animals", counted(messages::kAnimalsCounted, report.animals)},
                  {"captures", counted(messages::kCapturesCounted, report.captures)},
                  {"occasions", counted(messages::kOccasionsCounted, report.occasions)},
                  {"design", report.design}});
  if (!report.why.empty()) out += wrapped(words(report.why), width, "", "");
  const std::string interval = interval_heading(report.level);
  add_answer(out, report, interval, width);
  out += time_text(report, width);
  add_list(out, messages::kMindTitle, report.warnings, width);
  add_families(out, report);
  add_beside_models(out, report, interval);
  add_tests(out, report, width);
  add_list(out, messages::kHoldsIfTitle, report.assumptions, width);
  return out;
}

}  // namespace evet::models
