#include <algorithm>
#include <cmath>
#include <map>

#include "models/base/figure_text.h"
#include "models/plan/messages.h"
#include "models/plan/survey_plan.h"
#include "models/report/svg.h"

namespace evet::models {
namespace {

constexpr double kWidth = 640, kHeight = 380, kLeft = 70, kRight = 110, kTop = 30, kBottom = 55;

struct LineEnd {
  double y, x;
  int traps;
};

// Downwards, each name at the end of its line or as close below it as names do not lie on each other.
void name_lines(Svg& svg, std::vector<LineEnd> ends) {
  std::sort(ends.begin(), ends.end(), [](const LineEnd& a, const LineEnd& b) { return a.y < b.y; });
  double above = -1e9;
  for (const LineEnd& end : ends) {
    above = std::max(end.y, above + 14);
    svg.text(end.x, above, Message(messages::kTrapsLine, {{"traps", std::to_string(end.traps)}}).words(),
             Svg::Anchor::start);
  }
}

}  // namespace

std::string plan_chart(const SurveyPlan& plan, const PlanRequest& request) {
  double most = request.wanted * 1.2;
  int first = 60, last = 2;
  std::map<int, std::vector<const PlanRow*>> lines;
  for (const PlanRow& row : plan.rows) {
    first = std::min(first, row.nights), last = std::max(last, row.nights);
    if (!std::isfinite(row.relative_error)) continue;
    most = std::max(most, std::min(row.relative_error, 2.0));
    lines[row.traps].push_back(&row);
  }
  if (first == last) --first, ++last;
  const auto x = [&](double nights) {
    return kLeft + (nights - first) / (last - first) * (kWidth - kLeft - kRight);
  };
  const auto y = [&](double error) {
    return kHeight - kBottom - std::min(error, most) / most * (kHeight - kTop - kBottom);
  };
  Svg svg(kWidth, kHeight, Message(messages::kPlanTitle).words(), plan.says.words());
  for (const double tick : round_ticks(0, most)) {
    svg.line(kLeft, y(tick), kWidth - kRight, y(tick), Svg::Line::faint);
    svg.text(kLeft - 8, y(tick) + 4, std::to_string(std::lround(100 * tick)) + " %", Svg::Anchor::end);
  }
  for (const double tick : round_ticks(first, last))
    if (tick == std::round(tick))
      svg.text(x(tick), kHeight - kBottom + 20, std::to_string(std::lround(tick)));
  svg.text((kLeft + kWidth - kRight) / 2, kHeight - 12, Message(messages::kAxisNights).words());
  svg.text(16, (kTop + kHeight - kBottom) / 2, Message(messages::kAxisError).words(), Svg::Anchor::middle,
           -90);
  svg.line(kLeft, y(request.wanted), kWidth - kRight, y(request.wanted), Svg::Line::dashed);
  svg.text(kWidth - kRight + 6, y(request.wanted) + 4, Message(messages::kWantedLine).words(),
           Svg::Anchor::start);
  std::vector<LineEnd> ends;
  for (const auto& [traps, rows] : lines) {
    std::vector<std::pair<double, double>> points;
    for (const PlanRow* row : rows) points.emplace_back(x(row->nights), y(row->relative_error));
    svg.path(points);
    for (const PlanRow* row : rows) svg.dot(x(row->nights), y(row->relative_error), !row->reaches);
    ends.push_back({points.back().second + 4, points.back().first + 10, traps});
  }
  if (ends.size() > 1) name_lines(svg, std::move(ends));
  return svg.str();
}

}  // namespace evet::models
