// Estimates over time, to scale: occasions at their dates, what holds over an interval as a bar of its length.
//
// No line joins them: what lies between two dates was not observed.
#pragma once
#include <string>
#include <vector>

#include "models/report/chart.h"

namespace evet::models {

struct TimePoint {
  double from_day = 0, to_day = 0;  // since the first date; alike for an occasion
  double value = 0, lower = 0, upper = 0;
};
// `first_date` is that of day 0, "2031-04-10". `most`: where the axis ends for all drawings of a quantity; 0: by the
// points alone.
std::string time_chart(const ChartLabels& labels, const std::string& first_date,
                       const std::vector<TimePoint>& points, double most = 0);
// The highest value that the points alone would give the axis; 0 where there is none.
double most_of(const std::vector<TimePoint>& points);

// Marks on the axis from the first day to `days` later: years, months or days, few enough to be read.
struct TimeMark {
  double day = 0;
  std::string words;
};
std::vector<TimeMark> time_marks(const std::string& first_date, double days);

}  // namespace evet::models
