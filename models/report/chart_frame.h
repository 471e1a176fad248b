// The frame that all charts are drawn in: axes with round figures, a title, room for labels.
#pragma once
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "models/report/chart_labels.h"
#include "models/report/svg.h"

namespace evet::models {

// The frame: axes from a range of values up and places across, with round figures.
struct ChartFrame {
  static constexpr double kWidth = 640, kHeight = 360, kLeft = 64, kRight = 16, kTop = 40, kBottom = 60;
  double height;
  Svg svg;
  double low, high, x_low, x_high;

  // `below`: room for turned labels under the axis.
  ChartFrame(const ChartLabels& labels, double from, double to, double x_from, double x_to, double below = 0)
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

  // An interval with caps; one without end on the drawing has an arrow.
  void interval(double across, double lower, double upper) {
    if (!std::isfinite(lower) && !std::isfinite(upper)) return;
    const double from = std::isfinite(lower) ? inside(lower) : low,
                 to = std::isfinite(upper) ? inside(upper) : high;
    svg.line(across, y(from), across, y(to));
    if (upper > high)
      svg.arrow(across, y(high), 90);
    else
      svg.line(across - 5, y(to), across + 5, y(to));
    if (std::isfinite(lower)) svg.line(across - 5, y(from), across + 5, y(from));
  }

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

}  // namespace evet::models
