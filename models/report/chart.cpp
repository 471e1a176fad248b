#include "models/report/chart.h"

#include <algorithm>
#include <cmath>

#include "models/report/chart_frame.h"

namespace evet::models {
std::string interval_chart(const ChartLabels& labels, const std::vector<IntervalPoint>& points) {
  double low = 1e300, high = -1e300, reach = 0;
  for (const IntervalPoint& p : points)
    for (const double value : {p.value, p.lower, p.upper})
      if (std::isfinite(value)) {
        low = std::min(low, value);
        high = std::max(high, value);
        reach = std::max(reach, p.value);
      }
  if (!(high >= low)) return {};
  // One very wide interval must not flatten all the others: it runs off with an arrow.
  if (reach > 0) high = std::min(high, 4 * reach);
  const bool from_nought = low >= 0 && low < 0.6 * high;
  const double margin = 0.06 * (high - (from_nought ? 0 : low));
  low = from_nought ? 0 : low - margin;
  std::vector<std::string> names;
  names.reserve(points.size());
  for (const IntervalPoint& p : points) names.push_back(p.label);
  ChartFrame frame(labels, low, high + margin, -0.5, static_cast<double>(points.size()) - 0.5,
                   ChartFrame::room_below(names));
  for (std::size_t i = 0; i < points.size(); ++i) {
    const IntervalPoint& p = points[i];
    const double x = frame.x(static_cast<double>(i));
    frame.interval(x, p.lower, p.upper);
    if (!std::isfinite(p.value) || p.value > frame.high) continue;
    frame.svg.dot(x, frame.y(p.value));
  }
  frame.places(names);
  return frame.svg.str();
}

std::string profile_chart(const ChartLabels& labels, const std::vector<double>& x,
                          const std::vector<double>& y, double level, const std::string& level_words,
                          double estimate) {
  if (x.size() < 2) return {};
  const double top = 2.2 * level;
  ChartFrame frame(labels, 0, top, x.front(), x.back());
  std::vector<std::pair<double, double>> line;
  for (std::size_t i = 0; i < x.size(); ++i)
    if (y[i] <= top) line.emplace_back(frame.x(x[i]), frame.y(y[i]));
  for (const double tick : round_ticks(x.front(), x.back()))
    frame.svg.text(frame.x(tick), ChartFrame::kHeight - ChartFrame::kBottom + 18, figure_text(tick));
  frame.svg.line(ChartFrame::kLeft, frame.y(level), ChartFrame::kWidth - ChartFrame::kRight, frame.y(level),
                 Svg::Line::dashed);
  frame.svg.text(ChartFrame::kWidth - ChartFrame::kRight - 4, frame.y(level) + 16, level_words,
                 Svg::Anchor::end);
  frame.svg.path(line);
  if (std::isfinite(estimate)) {
    frame.svg.dot(frame.x(estimate), frame.y(0));
    frame.svg.text(frame.x(estimate), frame.y(0) - 10, figure_text(estimate));
  }
  return frame.svg.str();
}

std::string residual_chart(const ChartLabels& labels, const std::vector<Residual>& residuals) {
  if (residuals.empty()) return {};
  double reach = 3;
  for (const Residual& r : residuals)
    if (std::isfinite(r.value)) reach = std::max(reach, std::abs(r.value));
  std::vector<std::string> names;
  names.reserve(residuals.size());
  for (const Residual& r : residuals) names.push_back(r.label);
  ChartFrame frame(labels, -reach * 1.05, reach * 1.05, -0.5, static_cast<double>(residuals.size()) - 0.5,
                   ChartFrame::room_below(names));
  const double room =
      (ChartFrame::kWidth - ChartFrame::kLeft - ChartFrame::kRight) / static_cast<double>(residuals.size());
  const double wide = std::clamp(0.6 * room, 1.0, 28.0);
  for (const double at : {-2.0, 2.0})
    frame.svg.line(ChartFrame::kLeft, frame.y(at), ChartFrame::kWidth - ChartFrame::kRight, frame.y(at),
                   Svg::Line::dashed);
  frame.svg.line(ChartFrame::kLeft, frame.y(0), ChartFrame::kWidth - ChartFrame::kRight, frame.y(0));
  for (std::size_t i = 0; i < residuals.size(); ++i) {
    const double value = residuals[i].value;
    if (!std::isfinite(value)) continue;
    const double top = frame.y(std::max(0.0, value)), bottom = frame.y(std::min(0.0, value));
    // Filled beyond two, hollow within.
    frame.svg.bar(frame.x(static_cast<double>(i)) - wide / 2, top, wide, std::max(0.5, bottom - top),
                  std::abs(value) <= 2);
  }
  frame.places(names);
  return frame.svg.str();
}

}  // namespace evet::models
