#include "models/report/time_chart.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>

#include "models/report/chart_frame.h"

namespace evet::models {
namespace {

using std::chrono::sys_days;
using std::chrono::year_month_day;

sys_days day_of(const std::string& date) {
  return year_month_day{std::chrono::year(std::stoi(date.substr(0, 4))),
                        std::chrono::month(static_cast<unsigned>(std::stoi(date.substr(5, 2)))),
                        std::chrono::day(static_cast<unsigned>(std::stoi(date.substr(8, 2))))};
}

std::string words_of(sys_days day, int digits) {
  const year_month_day date{day};
  char text[24];
  std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return std::string(text).substr(0, static_cast<std::size_t>(digits));
}

// Beginnings of every `step`-th month, counted so that a year's steps begin in January.
std::vector<TimeMark> months(sys_days first, sys_days last, int step, int digits) {
  std::vector<TimeMark> marks;
  const year_month_day from{first};
  const int start =
      static_cast<int>(from.year()) * 12 + static_cast<int>(static_cast<unsigned>(from.month())) - 1;
  for (int month = start - start % step;; month += step) {
    const sys_days day =
        year_month_day{std::chrono::year(month / 12),
                       std::chrono::month(static_cast<unsigned>(month % 12) + 1), std::chrono::day(1)};
    if (day > last) return marks;
    if (day >= first) marks.push_back({static_cast<double>((day - first).count()), words_of(day, digits)});
  }
}

}  // namespace

std::vector<TimeMark> time_marks(const std::string& first_date, double days) {
  constexpr double kMonth = 30.4375, kMostMarks = 9;
  constexpr int kYearDigits = 4, kMonthDigits = 7, kDayDigits = 10;
  const sys_days first = day_of(first_date),
                 last = first + std::chrono::days(static_cast<int>(std::floor(days)));
  for (const int step : {1, 3, 6})
    if (days >= 3 * kMonth * step && days <= kMostMarks * kMonth * step)
      return months(first, last, step, kMonthDigits);
  if (days > kMostMarks * kMonth) {
    int years = 1;
    while (days > kMostMarks * 12 * kMonth * years) years *= years % 5 == 0 || years == 1 ? 2 : 5;
    return months(first, last, 12 * years, kYearDigits);
  }
  std::vector<TimeMark> marks;
  const int step = std::max(1, static_cast<int>(std::ceil((days + 1) / 6)));
  for (int day = 0; day <= days; day += step)
    marks.push_back({static_cast<double>(day), words_of(first + std::chrono::days(day), kDayDigits)});
  return marks;
}

double most_of(const std::vector<TimePoint>& points) {
  // One very wide interval must not flatten all the others: it runs off with an arrow.
  constexpr double kFurthest = 4;
  double high = 0, reach = 0;
  for (const TimePoint& p : points)
    for (const double value : {p.value, p.lower, p.upper})
      if (std::isfinite(value)) {
        high = std::max(high, value);
        reach = std::max(reach, std::isfinite(p.value) ? p.value : 0);
      }
  return reach > 0 ? std::min(high, kFurthest * reach) : high;
}

std::string time_chart(const ChartLabels& labels, const std::string& first_date,
                       const std::vector<TimePoint>& points, double most) {
  if (points.empty()) return {};
  const double high = most > 0 ? most : most_of(points);
  if (!(high > 0)) return {};
  double last = 0;
  for (const TimePoint& p : points) last = std::max(last, p.to_day);
  constexpr double kMargin = 0.04, kHeadroom = 1.06;
  const double beside = std::max(0.5, kMargin * last);
  ChartFrame frame(labels, 0, high * kHeadroom, -beside, last + beside);
  for (const TimeMark& mark : time_marks(first_date, last)) {
    const double x = frame.x(mark.day), axis = ChartFrame::kHeight - ChartFrame::kBottom;
    frame.svg.line(x, axis, x, axis + 5);
    frame.svg.text(x, axis + 18, mark.words);
  }
  for (const TimePoint& p : points) {
    const double x = frame.x((p.from_day + p.to_day) / 2);
    frame.interval(x, p.lower, p.upper);
    if (!std::isfinite(p.value) || p.value > frame.high) continue;
    if (p.to_day > p.from_day)
      frame.svg.line(frame.x(p.from_day), frame.y(p.value), frame.x(p.to_day), frame.y(p.value));
    frame.svg.dot(x, frame.y(p.value));
  }
  return frame.svg.str();
}

}  // namespace evet::models
