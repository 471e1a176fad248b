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
    if (estimate.what.quantity == Quantity::number && estimate.what.index && std::isfinite(estimate.value))
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
  add(survival(report));
  if (text.empty()) return "The data give no figure to quote: " + report.answer.front().undefined + ".";
  return text;
}

}  // namespace evet::models
