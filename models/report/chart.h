// The three charts that the plots are made of. Each takes plain values and returns a whole SVG document.
#pragma once
#include <string>
#include <vector>

#include "models/report/chart_labels.h"

namespace evet::models {

// A dot with a bar from `lower` to `upper` for each label along the bottom; a bar without end has an arrow. Labels
// stand at equal distances: for what has dates, see time_chart.h.
struct IntervalPoint {
  std::string label;
  double value, lower, upper;
};
std::string interval_chart(const ChartLabels& labels, const std::vector<IntervalPoint>& points);

// A curve with a level line at `level` and a mark where the estimate lies.
std::string profile_chart(const ChartLabels& labels, const std::vector<double>& x,
                          const std::vector<double>& y, double level, const std::string& level_words,
                          double estimate);

// Bars up and down from nought, with lines at -2 and +2.
struct Residual {
  std::string label;
  double value;
};
std::string residual_chart(const ChartLabels& labels, const std::vector<Residual>& residuals);

}  // namespace evet::models
