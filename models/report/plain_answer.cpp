#include "models/report/plain_answer.h"

#include <algorithm>
#include <cmath>

#include "models/base/figure_text.h"
#include "models/base/parameter_words.h"
#include "models/report/messages.h"

namespace evet::models {
namespace {

const Estimate* answered(const EstimateReport& report, const Parameter& what) {
  for (const Estimate& estimate : report.answer)
    if (estimate.what == what) return &estimate;
  return nullptr;
}

std::string rounded_text(double value) {
  return figure_text(std::round(value));
}

// The same figure in two ways: with both limits or one, and where the data set no upper limit at all.
struct FigureTexts {
  const MessageText &about, &at_least;
};

std::string limits(const Interval& interval) {
  const std::string lower = rounded_text(std::floor(interval.lower));
  if (std::isinf(interval.upper)) return Message(messages::kLimitsOpen, {{"lower", lower}}).words();
  return Message(messages::kLimits, {{"lower", lower}, {"upper", rounded_text(std::ceil(interval.upper))}})
      .words();
}

// Nothing where there is no figure; `more` is what the texts name beside it.
std::string numbers(const Estimate& estimate, const FigureTexts& texts,
                    std::vector<Message::Argument> more = {}) {
  const Interval& interval = estimate.intervals.front();
  if (std::isfinite(estimate.value)) {
    more.push_back({"value", rounded_text(estimate.value)});
    more.push_back({"limits", limits(interval)});
    return Message(texts.about, std::move(more)).words();
  }
  const bool bounded_below = std::isfinite(interval.lower) && interval.lower > 0 &&
                             !estimate.undefined.empty() && std::isinf(estimate.value);
  if (!bounded_below) return {};
  more.push_back({"least", rounded_text(std::floor(interval.lower))});
  return Message(texts.at_least, std::move(more)).words();
}

// The last occasion or period of which a number is told.
std::string last_number(const EstimateReport& report) {
  const Estimate* last = nullptr;
  for (const Estimate& estimate : report.answer)
    if (estimate.what.quantity == Quantity::number && estimate.what.index && estimate.what.groups.empty() &&
        std::isfinite(estimate.value))
      last = &estimate;
  if (!last) return {};
  std::string when = time_words(last->what, report.moments);
  if (when.empty())
    when = Message(messages::kOccasionNumber, {{"number", std::to_string(*last->what.index)}}).words();
  return numbers(*last, {messages::kAboutThen, messages::kAtLeastThen}, {{"when", when}});
}

// What survival and growth are per; without a unit of time, from one occasion or period to the next.
std::string per(const EstimateReport& report, const MessageText& period, const MessageText& occasion) {
  if (report.time.unit == "interval") return Message(report.design == "robust" ? period : occasion).words();
  return Message(messages::kPerUnit, {{"unit", report.time.unit}}).words();
}

// Survival where it is the same throughout the answer.
std::string survival(const EstimateReport& report) {
  const Estimate* one = nullptr;
  for (const Estimate& estimate : report.answer) {
    if (estimate.what.quantity != Quantity::survival || estimate.what.kind != Parameter::Kind::value)
      continue;
    if (!std::isfinite(estimate.value) || !estimate.what.groups.empty()) return {};
    if (one && std::abs(one->value - estimate.value) > 0.005) return {};
    one = &estimate;
  }
  if (!one || one->intervals.empty()) return {};
  const auto hundred = [](double share) { return std::to_string(std::lround(100 * share)); };
  const Interval& interval = one->intervals.front();
  return Message(messages::kOf100Animals,
                 {{"value", hundred(one->value)},
                  {"per", per(report, messages::kFromPeriodToNext, messages::kFromOccasionToNext)},
                  {"lower", hundred(interval.lower)},
                  {"upper", hundred(interval.upper)}})
      .words();
}

// "Of these about 12 female, likely 8 to 20, and about 9 male, likely 6 to 15.", for the first group alone.
std::string by_group(const EstimateReport& report) {
  const Estimate* total = nullptr;
  for (const Estimate& estimate : report.answer)
    if (estimate.what.quantity == Quantity::number && estimate.what.groups.empty() &&
        std::isfinite(estimate.value))
      total = &estimate;
  if (!total) return {};
  std::string text, group;
  for (const Estimate& estimate : report.answer) {
    const Parameter& what = estimate.what;
    if (what.quantity != Quantity::number || what.index != total->what.index || what.groups.size() != 1 ||
        !std::isfinite(estimate.value))
      continue;
    if (group.empty()) group = what.groups.front().first;
    if (what.groups.front().first != group) continue;
    text += (text.empty() ? "" : "; ") + numbers(estimate, {messages::kAboutLevel, messages::kAtLeastLevel},
                                                 {{"level", what.groups.front().second}});
  }
  if (text.empty()) return {};
  return Message(messages::kByGroup, {{"group", group}, {"levels", text}}).words();
}

// By a factor; and where the interval holds 1, that growth and decline cannot be told apart.
struct ChangeTexts {
  const MessageText &plain, &either;
};
std::string changed(const Interval& interval, const ChangeTexts& texts, double value,
                    std::vector<Message::Argument> more) {
  more.push_back({"value", figure_text(value)});
  more.push_back({"lower", figure_text(interval.lower)});
  more.push_back({"upper", figure_text(interval.upper)});
  return Message(interval.lower < 1 && interval.upper > 1 ? texts.either : texts.plain, std::move(more))
      .words();
}

// Over the years the ups and downs between them are part of the doubt.
std::string yearly_change(const EstimateReport& report) {
  const Estimate* one = answered(report, {Quantity::yearly_trend});
  if (!one || !std::isfinite(one->value) || one->intervals.empty()) return {};
  const Interval& interval = one->intervals.front();
  return changed(interval, {messages::kYearToYear, messages::kYearToYearEither}, one->value, {});
}

std::string mean_growth(const EstimateReport& report) {
  const Estimate* one = answered(report, {Quantity::mean_growth});
  if (!one || !std::isfinite(one->value) || one->intervals.empty()) return {};
  const Interval& interval = one->intervals.front();
  return changed(interval, {messages::kWholeStudy, messages::kWholeStudyEither}, one->value,
                 {{"per", per(report, messages::kPeriodToPeriod, messages::kOccasionToOccasion)}});
}

}  // namespace

std::string plain_answer(const EstimateReport& report) {
  if (report.answer.empty()) return Message(messages::kNoAnswer).words();
  std::string text;
  const auto add = [&](const std::string& words) {
    if (!words.empty()) text += (text.empty() ? "" : " ") + words;
  };
  if (const Estimate* n = answered(report, {Quantity::number}))
    add(numbers(*n, {messages::kAboutAnimals, messages::kAtLeastAnimals}));
  if (const Estimate* ever = answered(report, {Quantity::number_ever}))
    add(numbers(*ever, {messages::kAboutEver, messages::kAtLeastEver}));
  add(last_number(report));
  add(by_group(report));
  add(survival(report));
  const std::string by_year = yearly_change(report);
  add(by_year.empty() ? mean_growth(report) : by_year);
  if (text.empty())
    return Message(messages::kNoFigureToQuote, {{"why", report.answer.front().undefined.words()}}).words();
  return text;
}

}  // namespace evet::models
