#include "models/report/plain_answer.h"

#include <algorithm>
#include <cmath>

#include "models/base/figure_text.h"
#include "models/base/told_name.h"

namespace evet::models {
namespace {

const Estimate* found(const EstimateReport& report, const Parameter& what) {
  for (const Estimate& estimate : report.answer)
    if (estimate.what == what) return &estimate;
  return nullptr;
}

std::string whole(double value) {
  return figure_text(std::round(value));
}

// "about 24 animals, likely 18 to 49"
std::string numbers(const Estimate& estimate, const std::string& of) {
  const Interval& interval = estimate.intervals.front();
  if (!std::isfinite(estimate.value))
    return std::isfinite(interval.lower) && interval.lower > 0 && !estimate.undefined.empty() &&
                   std::isinf(estimate.value)
               ? "at least " + whole(std::floor(interval.lower)) + " " + of + "; the data set no upper limit"
               : "";
  const std::string upper =
      std::isinf(interval.upper)
          ? whole(std::floor(interval.lower)) + " or more, without an upper limit"
          : whole(std::floor(interval.lower)) + " to " + whole(std::ceil(interval.upper));
  return "about " + whole(estimate.value) + " " + of + ", likely " + upper;
}

std::string sentence(std::string words) {
  if (words.empty()) return words;
  words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
  return words + ".";
}

// The last occasion or period of which a number is told.
std::string last_number(const EstimateReport& report) {
  const Estimate* last = nullptr;
  for (const Estimate& estimate : report.answer)
    if (estimate.what.quantity == Quantity::number && estimate.what.index && estimate.what.groups.empty() &&
        std::isfinite(estimate.value))
      last = &estimate;
  if (!last) return {};
  std::string when = told_time(last->what, report.moments);
  if (when.empty()) when = "occasion " + std::to_string(*last->what.index);
  return sentence(numbers(*last, "animals were there on " + when));
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
  const std::string per =
      report.time.unit == "interval"
          ? report.design == "robust" ? "from one period to the next" : "from one occasion to the next"
          : "per " + report.time.unit;
  return "Of 100 animals about " + hundred(one->value) + " live on and stay " + per + ", likely " +
         hundred(one->intervals.front().lower) + " to " + hundred(one->intervals.front().upper) + ".";
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
    text += (text.empty() ? "" : "; ") + numbers(estimate, what.groups.front().second);
  }
  return text.empty() ? "" : "By " + group + ": " + text + ".";
}

// Over the years the ups and downs between them are part of the doubt.
std::string yearly_change(const EstimateReport& report) {
  const Estimate* one = found(report, {Quantity::yearly_trend});
  if (!one || !std::isfinite(one->value) || one->intervals.empty()) return {};
  const Interval& interval = one->intervals.front();
  return "From year to year numbers changed by a factor of " + figure_text(one->value) + ", likely " +
         figure_text(interval.lower) + " to " + figure_text(interval.upper) +
         " with the ups and downs between years in it" +
         (interval.lower < 1 && interval.upper > 1 ? ": the data do not tell growth from decline." : ".");
}

std::string mean_growth(const EstimateReport& report) {
  const Estimate* one = found(report, {Quantity::mean_growth});
  if (!one || !std::isfinite(one->value) || one->intervals.empty()) return {};
  const Interval& interval = one->intervals.front();
  const std::string per =
      report.time.unit == "interval"
          ? report.design == "robust" ? "from period to period" : "from occasion to occasion"
          : "per " + report.time.unit;
  return "Over the whole study numbers changed by a factor of " + figure_text(one->value) + " " + per +
         ", likely " + figure_text(interval.lower) + " to " + figure_text(interval.upper) +
         (interval.lower < 1 && interval.upper > 1 ? ": the data do not tell growth from decline." : ".");
}

}  // namespace

std::string plain_answer(const EstimateReport& report) {
  if (report.answer.empty()) return "There is no answer.";
  std::string text;
  const auto add = [&](const std::string& words) {
    if (!words.empty()) text += (text.empty() ? "" : " ") + words;
  };
  if (const Estimate* n = found(report, {Quantity::number})) add(sentence(numbers(*n, "animals")));
  if (const Estimate* ever = found(report, {Quantity::number_ever}))
    add(sentence(numbers(*ever, "animals were there at some time")));
  add(last_number(report));
  add(by_group(report));
  add(survival(report));
  const std::string by_year = yearly_change(report);
  add(by_year.empty() ? mean_growth(report) : by_year);
  if (text.empty())
    return "The data give no figure to quote: " + report.answer.front().undefined.words() + ".";
  return text;
}

}  // namespace evet::models
