#include "models/report/chart.h"

#include <algorithm>
#include <cmath>

#include "models/report/svg.h"

namespace evet::models {
namespace {

constexpr double kWidth = 640, kHeight = 360, kLeft = 64, kRight = 16, kTop = 40, kBottom = 60;

// The frame: axes from a range of values up and places across, with round figures.
struct Frame {
  double height;
  Svg svg;
  double low, high, x_low, x_high;

  // `below`: room for turned labels under the axis.
  Frame(const ChartLabels& labels, double from, double to, double x_from, double x_to, double below = 0)
      : height(kHeight + below),
        svg(kWidth, height, labels.title, labels.description),
        low(from),
        high(to),
        x_low(x_from),
        x_high(x_to) {
    if (!(high > low)) {
      low -= 0.5;
      high += 0.5;
    }
    if (!(x_high > x_low)) {
      x_low -= 0.5;
      x_high += 0.5;
    }
    svg.text(kLeft, 22, labels.title, Svg::Anchor::start, 0, 15);
    for (const double tick : round_ticks(low, high)) {
      svg.line(kLeft, y(tick), kWidth - kRight, y(tick), Svg::Line::faint);
      svg.text(kLeft - 8, y(tick) + 4, figure_text(tick), Svg::Anchor::end);
    }
    svg.line(kLeft, kTop, kLeft, kHeight - kBottom);
    svg.line(kLeft, kHeight - kBottom, kWidth - kRight, kHeight - kBottom);
    svg.text((kLeft + kWidth - kRight) / 2, height - 10, labels.across);
    svg.text(16, (kTop + kHeight - kBottom) / 2, labels.up, Svg::Anchor::middle, -90);
  }
  double y(double value) const {
    return kHeight - kBottom - (value - low) / (high - low) * (kHeight - kBottom - kTop);
  }
  double x(double value) const {
    return kLeft + (value - x_low) / (x_high - x_low) * (kWidth - kRight - kLeft);
  }
  double inside(double value) const { return std::clamp(value, low, high); }

  // Labels of places 0, 1, ...; turned or thinned when they would run into each other.
  void places(const std::vector<std::string>& names) {
    const double room = room_for(names.size());
    const bool turned = are_turned(names);
    const auto every =
        static_cast<std::size_t>(turned ? 1 : std::max(1.0, std::ceil((7.0 * longest(names) + 6) / room)));
    for (std::size_t i = 0; i < names.size(); i += every) {
      const double at = x(static_cast<double>(i));
      if (turned)
        svg.text(at + 4, kHeight - kBottom + 14, names[i], Svg::Anchor::end, -40, 11);
      else
        svg.text(at, kHeight - kBottom + 18, names[i]);
    }
  }
  static double room_for(std::size_t places) {
    return (kWidth - kLeft - kRight) / static_cast<double>(places);
  }
  static double longest(const std::vector<std::string>& names) {
    std::size_t most = 1;
    for (const std::string& name : names) most = std::max(most, name.size());
    return static_cast<double>(most);
  }
  static bool are_turned(const std::vector<std::string>& names) {
    const double room = room_for(names.size());
    return 7 * longest(names) + 6 > room && room >= 14 && longest(names) > 3;
  }
  static double room_below(const std::vector<std::string>& names) {
    return are_turned(names) ? std::max(0.0, 4.0 * longest(names) - 20) : 0;
  }
};

}  // namespace

std::string interval_chart(const ChartLabels& labels, const std::vector<IntervalPoint>& points, bool joined) {
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
  Frame frame(labels, low, high + margin, -0.5, static_cast<double>(points.size()) - 0.5,
              Frame::room_below(names));
  std::vector<std::pair<double, double>> line;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const IntervalPoint& p = points[i];
    const double x = frame.x(static_cast<double>(i));
    if (std::isfinite(p.lower) || std::isfinite(p.upper)) {
      const double from = std::isfinite(p.lower) ? frame.inside(p.lower) : frame.low;
      const double to = std::isfinite(p.upper) ? frame.inside(p.upper) : frame.high;
      frame.svg.line(x, frame.y(from), x, frame.y(to));
      if (p.upper > frame.high)
        frame.svg.arrow(x, frame.y(frame.high), 90);
      else
        frame.svg.line(x - 5, frame.y(to), x + 5, frame.y(to));
      if (std::isfinite(p.lower)) frame.svg.line(x - 5, frame.y(from), x + 5, frame.y(from));
    }
    if (!std::isfinite(p.value) || p.value > frame.high) continue;
    frame.svg.dot(x, frame.y(p.value));
    line.emplace_back(x, frame.y(p.value));
  }
  if (joined && line.size() > 1) frame.svg.path(line, Svg::Line::faint);
  frame.places(names);
  return frame.svg.str();
}

std::string profile_chart(const ChartLabels& labels, const std::vector<double>& x,
                          const std::vector<double>& y, double level, const std::string& level_words,
                          double estimate) {
  if (x.size() < 2) return {};
  const double top = 2.2 * level;
  Frame frame(labels, 0, top, x.front(), x.back());
  std::vector<std::pair<double, double>> line;
  for (std::size_t i = 0; i < x.size(); ++i)
    if (y[i] <= top) line.emplace_back(frame.x(x[i]), frame.y(y[i]));
  for (const double tick : round_ticks(x.front(), x.back()))
    frame.svg.text(frame.x(tick), kHeight - kBottom + 18, figure_text(tick));
  frame.svg.line(kLeft, frame.y(level), kWidth - kRight, frame.y(level), Svg::Line::dashed);
  frame.svg.text(kWidth - kRight - 4, frame.y(level) + 16, level_words, Svg::Anchor::end);
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
  Frame frame(labels, -reach * 1.05, reach * 1.05, -0.5, static_cast<double>(residuals.size()) - 0.5,
              Frame::room_below(names));
  const double room = (kWidth - kLeft - kRight) / static_cast<double>(residuals.size());
  const double wide = std::clamp(0.6 * room, 1.0, 28.0);
  for (const double at : {-2.0, 2.0})
    frame.svg.line(kLeft, frame.y(at), kWidth - kRight, frame.y(at), Svg::Line::dashed);
  frame.svg.line(kLeft, frame.y(0), kWidth - kRight, frame.y(0));
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
